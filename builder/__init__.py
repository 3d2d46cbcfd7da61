"""Trip kits: from a folder of YAML to one offline website per trip."""
