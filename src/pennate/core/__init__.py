"""Pure types and plain arithmetic: standard library only, no input, output, clock or chance."""
