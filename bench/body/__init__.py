"""Measurements of the body's computations: verdicts, probabilities, weight, support."""
