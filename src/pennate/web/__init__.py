"""The web application: pages, forms and their wiring."""
