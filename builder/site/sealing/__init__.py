"""A kit for those who know a passphrase: one page whose content is encrypted."""
