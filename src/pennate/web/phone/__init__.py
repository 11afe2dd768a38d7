"""The Floor without reception: what the phone takes along, and the page that uses it."""
