"""Tests of the commands as a person types them."""
