"""Measurements: accuracy and speed, with the tables they make."""
