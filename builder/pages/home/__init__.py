"""The pages of the home: what belongs to no single trip."""
