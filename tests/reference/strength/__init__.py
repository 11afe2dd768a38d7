"""The strength model against published figures."""
