"""The store: immutable dated entries in SQLite or PostgreSQL."""
