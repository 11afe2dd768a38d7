"""The week: dose audit and planner."""
