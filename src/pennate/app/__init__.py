"""The use cases, a function each."""
