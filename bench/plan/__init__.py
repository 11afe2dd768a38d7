"""Benchmark of the planner: briefs committed before tuning, results in RESULTS.md."""
