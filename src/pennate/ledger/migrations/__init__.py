"""Migrations of the ledger, oldest first; shipped with the package."""
