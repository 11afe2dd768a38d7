"""The `pennate` command and the areas its commands come from."""

from __future__ import annotations

import importlib
import pkgutil

import typer

app = typer.Typer(
    name="pennate",
    help="Plans, loads, logs and judges your strength training. All data stays on this machine.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

_NOT_COMMANDS = {"main", "common", "log_options", "replan", "streams", "week_files", "week_words"}


def _register_areas() -> None:
    package = importlib.import_module("pennate.cli")
    for module in sorted(m.name for m in pkgutil.iter_modules(package.__path__)):
        if module not in _NOT_COMMANDS:
            importlib.import_module(f"pennate.cli.{module}").register(app)


_register_areas()
