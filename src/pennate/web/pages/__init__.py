"""GET: each page fills one typed view and changes nothing."""
