"""Pictures beside a record: what may be written of them, and the small copies that kits show."""
