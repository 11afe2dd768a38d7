"""Tests of the body: tape, scale, food, recovery, cycle."""
