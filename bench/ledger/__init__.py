"""How long the ledger and the exchange take."""
