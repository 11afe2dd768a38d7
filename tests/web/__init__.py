"""The web face."""
