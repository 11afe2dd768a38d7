"""The phone: sync, the response sheet, and the Floor without reception."""
