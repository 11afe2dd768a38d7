"""The open benchmark of one-step-ahead forecasts: `python -m bench.forecast`."""
