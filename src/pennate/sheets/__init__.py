"""Pictures and paper: SVG drawings and printed sheets."""
