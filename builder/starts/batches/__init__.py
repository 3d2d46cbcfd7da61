"""Batches in the log of a content folder: new ones, ended ones, planned ones."""
