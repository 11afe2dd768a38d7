"""The phone's page measured: touches a set, from touch to paint, and what it weighs."""
