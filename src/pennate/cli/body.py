"""Commands on the body: `growth` and `weight`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json, this_day
from pennate.cli.log_options import reads_log

if TYPE_CHECKING:
    from datetime import date

    from pennate.app.body import GrowthReport
    from pennate.body.weight import WeightTrend
    from pennate.files.how import How


def register(app: typer.Typer) -> None:
    """Add the commands."""
    app.command()(growth)
    app.command()(weight)


@reads_log
def growth(
    measures: Annotated[Path, typer.Argument(metavar="MEASURES.csv", help="Girths by date.")],
    log: Annotated[
        Path | None, typer.Option("--log", metavar="LOG.csv", help="Training log as support.")
    ] = None,
    weights: Annotated[
        Path | None,
        typer.Option("--weights", metavar="WEIGHTS.csv", help="Weighings that free girths of fat."),
    ] = None,
    *,
    how: How,
    as_json: JsonFlag = False,
) -> None:
    """Say of every girth whether it grows, holds or loses, or that nobody can tell yet."""
    with clear_errors(as_json=as_json):
        from pennate.app.body import growth_document, growth_of_file

        report = growth_of_file(measures, log, weights, how)
        if as_json:
            print_json(growth_document(report))
        else:
            _say_growth(report)


def _say_growth(report: GrowthReport) -> None:
    from pennate.app.body_words import VERDICT_RULE
    from pennate.core.percent import chance
    from pennate.core.plural import plural

    _say_how_old(max(site.end for site in report.sites))
    for site in report.sites:
        typer.echo(site.say)
        more, same, less = (chance(p) for p in (site.p_more, site.p_same, site.p_less))
        typer.echo(f"   Chances: {more} more, {same} same, {less} less (by over 1 %).")
        typer.echo(f"   Corrected for fat by: {site.correction}.")
        typer.echo(
            f"   {plural(site.dates, 'date')}, ± {site.typical_error_cm:.2f} cm a reading:"
            f" a change of {site.detectable_cm:.1f} cm or more would show."
        )
        typer.echo(f"   {site.next_reading.say}")
    for difference in report.left_right:
        typer.echo(difference.say)
    typer.echo(f"Ranges hold 95 times in a hundred. {VERDICT_RULE}")
    typer.echo("Constants and sources: pennate evidence body")
    for question in report.questions:
        typer.echo(f"To check: {question}")


def _say_how_old(last: date) -> None:
    from pennate.app.body import as_of

    if said := as_of(last, this_day()):
        typer.echo(said)


def weight(
    weights: Annotated[Path, typer.Argument(metavar="WEIGHTS.csv", help="Columns date, kg.")],
    *,
    as_json: JsonFlag = False,
) -> None:
    """Say where body weight is heading, and what the scale will likely say in the next weeks."""
    with clear_errors(as_json=as_json):
        from pennate.app.body import weight_document, weight_of_file

        trend = weight_of_file(weights)
        if as_json:
            print_json(weight_document(trend))
        else:
            _say_weight(trend)


def _say_weight(trend: WeightTrend) -> None:
    from pennate.core.percent import signed

    _say_how_old(trend.day)
    typer.echo(
        f"Trend on {trend.day}: {trend.trend_kg:.1f} kg "
        f"({trend.trend_low95:.1f} to {trend.trend_high95:.1f})."
    )
    typer.echo(
        f"Slope: {signed(trend.slope_kg_week, 2)} kg a week "
        f"({signed(trend.low95, 2)} to {signed(trend.high95, 2)})."
    )
    for ahead in trend.forecast:
        typer.echo(
            f"In {ahead.weeks} week{'s' if ahead.weeks > 1 else ''} a morning weighing of "
            f"{ahead.p10:.1f} to {ahead.p90:.1f} kg, four times in five."
        )
    typer.echo("Trend and slope lie within their ranges 95 times in a hundred.")
    typer.echo("Constants and sources: pennate evidence weight")
    for question in trend.questions:
        typer.echo(f"To check: {question}")
