"""Girths, weight and recovery: is the muscle growing."""
