"""Measurements of the load solver."""
