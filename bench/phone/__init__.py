"""The phone's page measured: from touch to paint, and what it weighs."""
