"""How kinds of record are declared, key by key, and what is made of that: schemas and tables."""
