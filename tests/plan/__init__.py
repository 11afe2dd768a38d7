"""Tests of the week: dose, audit, planner, substitutes."""
