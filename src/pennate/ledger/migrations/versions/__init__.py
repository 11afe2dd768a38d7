"""One module a migration, named by its number."""
