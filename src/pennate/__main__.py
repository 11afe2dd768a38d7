"""`python -m pennate`, the same as the `pennate` command."""


def main() -> None:
    """Run the command line."""
    from pennate.cli.main import app
    from pennate.cli.streams import carry_every_word

    carry_every_word()
    app()


if __name__ == "__main__":
    main()
