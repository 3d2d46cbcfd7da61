"""Single changes of the code, drawn by chance: does a test see them?"""
