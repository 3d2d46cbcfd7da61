"""Where figures are from: kit.json, the pages of numbers, `explain`, what pages change, sources."""
