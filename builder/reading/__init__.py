"""A content folder, YAML and tables → checked records and all problems at once, with places."""

import os

# pydantic would look through all installed packages for plugins, which takes longer than its own
# import; and nobody else's code is to read along here.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
