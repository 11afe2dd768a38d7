"""Tests of the strength model."""
