"""What stands behind a figure that opens: terms, each with its words."""

Facts = tuple[tuple[str, str], ...]
