"""What each page shows, as one typed value a view: made from the card, drawn by a template."""
