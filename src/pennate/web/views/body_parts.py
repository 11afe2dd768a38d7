"""The other pages of the body: weight, food, recovery, cycle, one place of the tape."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pennate.app.body_food import AHEAD_DAYS, LEAST_DAYS, Aimed, largest_deficit
from pennate.app.body_notes import INTAKE
from pennate.app.body_pages import weighed_lately, weight_sentence
from pennate.app.body_today import BodyToday, Shown, cautions_on
from pennate.app.body_undo import Noted, noted_lately
from pennate.body.energy import Range
from pennate.body.error_model import learn
from pennate.body.series import Series
from pennate.body.weight import WeightTrend
from pennate.core.body import Site
from pennate.core.caution_texts import NO_PERIOD, PREGNANCY, UNDER_18_TARGETS
from pennate.core.cautions import Caution
from pennate.core.evidence import constant_named
from pennate.core.facts import Facts
from pennate.core.percent import percent, signed
from pennate.core.plural import plural
from pennate.core.quantities import format_number
from pennate.ledger.measured import WEIGHT
from pennate.sheets.body_chart import GirthPoint, WeightPoint
from pennate.web.views.body import (
    SiteRow,
    landmark_words,
    muscles_at,
    site_rows,
)

MOST_ROWS = 90
TWO_SIDED_95 = 1.96


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePage:
    """One place of the tape: verdicts, chart, table."""

    row: SiteRow | None
    site: str
    name: str
    muscles: str
    landmark: str
    table: tuple[tuple[str, str, str, str], ...]
    chart_alt: str
    cautions: tuple[Caution, ...]


def site_page(now: BodyToday, site: Site) -> SitePage:
    """The page of a place of the tape."""
    points = girth_points(now.series, site)
    first, last = (points[0].day, points[-1].day) if points else (now.today, now.today)
    return SitePage(
        row=next((one for one in site_rows(now) if one.site == site.value), None),
        site=site.value,
        name=site.value.capitalize(),
        muscles=muscles_at(site),
        landmark=landmark_words(site),
        table=tuple(
            (f"{p.day:%-d %b %Y}", p.side, f"{p.girth:.1f}", f"{p.low:.1f} to {p.high:.1f}")
            for p in reversed(points)
        ),
        chart_alt=f"{site.value}: girth from {first:%-d %B %Y} to {last:%-d %B %Y}; the values "
        "stand in the table below",
        cautions=cautions_on(now, Shown(change=True)),
    )


def girth_points(all_series: Sequence[Series], site: Site) -> tuple[GirthPoint, ...]:
    """Dates of a place with the interval of reading and day error, by day."""
    error = learn(all_series)
    found = []
    for series in (one for one in all_series if one.site is site):
        grid = error[site]
        for point in series.points:
            variance = float(grid.weight @ (grid.reading**2 / point.readings + grid.day**2))
            half = TWO_SIDED_95 * variance**0.5 * point.girth_cm / 100
            side = series.side.value if series.side else "girth"
            girth = point.girth_cm
            found.append(GirthPoint(point.day, side, girth, girth - half, girth + half))
    return tuple(sorted(found, key=lambda one: (one.day, one.side)))


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightPage:
    """The page Weight."""

    hidden: bool
    now: str
    say: str
    facts: Facts
    ahead: tuple[tuple[str, str], ...]
    like_day: str
    questions: tuple[str, ...]
    table: tuple[tuple[str, str, str, str], ...]
    older: str
    chart_alt: str
    today: str
    typed: str
    noted: tuple[Noted, ...]
    cautions: tuple[Caution, ...]


def weight_page(now: BodyToday, typed: str = "") -> WeightPage:
    """The page Weight; hidden weight is in none of its words."""
    view = now.page.weight
    points = view.points if view else ()
    rows = tuple(
        (
            f"{p.day:%-d %b %Y}",
            "" if p.weighed is None else f"{p.weighed:.1f}",
            f"{p.trend:.1f}",
            f"{p.low95:.1f} to {p.high95:.1f}",
        )
        for p in reversed(points[-MOST_ROWS:])
    )
    older = len(points) - MOST_ROWS
    return WeightPage(
        hidden=now.choices.hide_weight,
        now=f"{view.trend.trend_kg:.1f} kg" if view else "",
        say=weight_sentence(view.trend, now.today) if view else "",
        facts=_weight_facts(view.trend, len(points)) if view else (),
        ahead=_ahead(view.trend) if view and weighed_lately(view.trend, now.today) else (),
        like_day=view.like_day if view else "",
        questions=view.trend.questions if view else (),
        table=rows,
        older=f"{plural(older, 'older day')} not shown" if older > 0 else "",
        chart_alt="weight and its trend; the values stand in the table below",
        today=now.today.isoformat(),
        typed=typed,
        noted=noted_lately(now.book, WEIGHT),
        cautions=cautions_on(now, Shown(change=view is not None)),
    )


def _weight_facts(trend: WeightTrend, days: int) -> Facts:
    low, high = signed(trend.low95, 2), signed(trend.high95, 2)
    return (
        (
            "trend",
            (
                f"{trend.trend_kg:.2f} kg, {trend.trend_low95:.1f} to {trend.trend_high95:.1f}"
                " (95 %)"
            ),
        ),
        ("slope", f"{signed(trend.slope_kg_week, 2)} kg a week, {low} to {high} (95 %)"),
        ("rests on", f"{plural(days, 'weighing day')} up to {trend.day:%-d %B}"),
        (
            "rule",
            (
                "a filter with level, slope, slow water, the rhythm of your week, and the rise"
                " about a logged period; odd readings move it little"
            ),
        ),
        ("source", "your scale; constants and sources: pennate evidence weight"),
    )


def _ahead(trend: WeightTrend) -> tuple[tuple[str, str], ...]:
    return tuple(
        (f"in {plural(one.weeks, 'week')}", f"{one.p10:.1f} to {one.p90:.1f} kg")
        for one in trend.forecast
    )


def weight_points(now: BodyToday) -> tuple[WeightPoint, ...]:
    """The chart's plain values; none while weight is hidden."""
    view = now.page.weight
    return tuple(
        WeightPoint(p.day, p.trend, p.low95, p.high95, p.weighed)
        for p in (view.points if view else ())
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodPage:
    """The page Food."""

    hidden: bool
    protein: str
    protein_facts: Facts
    maintenance: str
    maintenance_facts: Facts
    eaten: str
    missing: str
    aim: str
    aimed: str
    aimed_facts: Facts
    guards: tuple[str, ...]
    largest: int
    height: str
    age: str
    fat: str
    bone_stress: bool
    today: str
    typed: tuple[str, str]
    noted: tuple[Noted, ...]
    cautions: tuple[Caution, ...]


def food_page(
    now: BodyToday, aim: str = "", aimed: Aimed | None = None, typed: tuple[str, str] = ("", "")
) -> FoodPage:
    """The page Food; `aim` is what she asked for: a deficit in kcal, or `gain`."""
    seen, chosen = now.food, now.choices
    shown = Shown(energy=True, deficit=aim not in {"", "gain"})
    return FoodPage(
        hidden=chosen.hide_weight,
        protein=_grams(seen.protein) if seen.protein else "",
        protein_facts=_protein_facts(seen.mass_kg, hidden=chosen.hide_weight),
        maintenance=_kcal(seen.maintenance) if seen.maintenance else "",
        maintenance_facts=_maintenance_facts(now),
        eaten=_eaten(now),
        missing=", ".join(seen.missing),
        aim=aim,
        aimed=_aimed(aimed, hidden=chosen.hide_weight),
        aimed_facts=_aimed_facts(now, aimed, gain=aim == "gain"),
        guards=aimed.guidance.guards if aimed else (),
        largest=largest_deficit(),
        height=_number(chosen.height_cm),
        age=_number(chosen.age),
        fat=_number(chosen.fat_kg),
        bone_stress=chosen.bone_stress,
        today=now.today.isoformat(),
        typed=typed,
        noted=noted_lately(now.book, INTAKE),
        cautions=cautions_on(now, shown),
    )


def _number(value: Fraction | None) -> str:
    return "" if value is None else format_number(value)


def _grams(span: Range) -> str:
    return f"{span.low:.0f} to {span.high:.0f} g a day, {span.middle:.0f} in the middle"


def _kcal(span: Range) -> str:
    return f"About {span.middle:.0f} kcal a day, {span.low:.0f} to {span.high:.0f}"


def _protein_facts(mass: float | None, *, hidden: bool) -> Facts:
    if mass is None:
        return ()
    by = "your body mass" if hidden else f"{mass:.1f} kg, the mean of your latest week"
    return (
        ("by", by),
        ("rule", "1.62 g for each kilogram, 1.03 to 2.20 (95 %): where more stopped helping"),
        ("source", "Morton 2018, 49 trials, 1,863 people; the interval on a secondary page"),
    )


def _maintenance_facts(now: BodyToday) -> Facts:
    seen = now.food
    if seen.maintenance is None:
        return ()
    need = f"{LEAST_DAYS} days of food and a weight trend"
    how = (
        f"{plural(seen.days, 'day')} of food with the slope of your weight, drawn to what body "
        "size says"
        if seen.learned
        else f"body size alone; with {need} it is learned from your own notes"
    )
    return (
        ("rests on", how),
        ("range", "holds it eight times in ten; without a fat mass the range covers any usual one"),
        ("training", f"{seen.exercise_kcal:.0f} kcal a day over two weeks, beyond resting"),
        (
            "rule",
            "resting energy by Mifflin–St Jeor; weight answers by the linearised dynamic model",
        ),
        ("source", "Mifflin 1990; Sanghvi 2015; Hall 2008; pennate evidence energy"),
    )


def _eaten(now: BodyToday) -> str:
    seen = now.food
    if seen.mean_kcal is None:
        return ""
    words = f"{plural(seen.days, 'day')} noted in four weeks: {seen.mean_kcal:.0f} kcal a day"
    if seen.mean_protein_g is not None:
        words += f", {seen.mean_protein_g:.0f} g protein"
    return words


def _aimed(aimed: Aimed | None, *, hidden: bool) -> str:
    if aimed is None or aimed.guidance.intake_kcal is None:
        return ""
    words = f"{aimed.guidance.intake_kcal:.0f} kcal a day"
    if aimed.change_kg is not None and not hidden:
        low, high = signed(aimed.change_kg.low), signed(aimed.change_kg.high)
        middle = signed(aimed.change_kg.middle)
        apart = f" ({low} to {high})" if low != high else ""
        words += f": {middle} kg{apart} in {AHEAD_DAYS} days if all else stays"
    return words


def _aimed_facts(now: BodyToday, aimed: Aimed | None, *, gain: bool) -> Facts:
    """What an offered intake is made of, and the guards it passed."""
    maintenance = now.food.maintenance
    if aimed is None or maintenance is None:
        return ()
    surplus, largest, left = map(
        constant_named, ("energy.surplus", "energy.largest_deficit", "energy.low_availability")
    )
    rule = (
        f"{percent(surplus.value)} above maintenance"
        if gain
        else f"what you chose below maintenance, at most {largest.value:g} kcal a day, and never so"
        f" little that under {left.value:g} kcal are left for each kilogram of lean mass after"
        " training; none under 18, in pregnancy or soon after, while periods are absent or newly"
        " irregular, or after more than one stress fracture"
    )
    behind = (surplus,) if gain else (largest, left)
    sources = [one.source for one in behind]
    if not gain:
        sources += [one.source for one in (UNDER_18_TARGETS, PREGNANCY, NO_PERIOD)]
    return (
        ("rests on", f"maintenance of {maintenance.middle:.0f} kcal a day"),
        ("rule", rule),
        ("ahead", "weight answers by the linearised dynamic model; the range is that of fat mass"),
        ("contested", "; ".join(one.contested for one in behind if one.contested)),
        ("source", "; ".join((*sources, "weight ahead: Hall 2008"))),
    )
