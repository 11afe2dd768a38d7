"""The strength model: history in, forecasts out."""
