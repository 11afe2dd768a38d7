"""POST: a handler a form; it changes something, then sends the reader on to a page."""
