"""Text files in and out: TOML and CSV, with the line of every error."""
