"""Tests of the files people write."""
