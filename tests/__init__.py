"""Tests: one sentence each on what they defend."""
