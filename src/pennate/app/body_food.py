"""Food: protein by body mass, maintenance from intake and weight, and guarded guidance.

Everything is optional. Fat mass is used inside the model only, and no share of the body is
computed for her to see.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import sqrt
from statistics import fmean, stdev

from pennate.app.body_notes import Choices, Eaten, choices, eaten, periods, usual_mass_kg
from pennate.app.book import Book
from pennate.app.review import minutes_taken
from pennate.body.cycle import irregular
from pennate.body.energy import (
    Guidance,
    Logged,
    Person,
    Range,
    deficit_guidance,
    dynamics,
    energy_availability,
    maintenance_before,
    maintenance_from,
    protein_grams,
    surplus_guidance,
    weight_after,
)
from pennate.body.weight import WeightTrend
from pennate.core.evidence.body_energy import DEFICIT_FLOOR
from pennate.core.evidence.body_pages import FAT_HIGH, FAT_LOW, RESTING_MET, SESSION_MET
from pennate.core.evidence.body_recovery import ABSENT_DAYS
from pennate.core.evidence.safety import LOW_ENERGY_KCAL_KG
from pennate.core.profile import Profile
from pennate.core.readiness import Health

STRETCH_DAYS = 28
LEAST_DAYS = 10
"""Days of food before maintenance is learned from it."""
TWO_SIDED_95 = 1.96
UNKNOWN_DAY_KCAL = 300.0
AHEAD_DAYS = 28


@dataclass(frozen=True, slots=True, kw_only=True)
class Food:
    """The page Food on a day. Ranges are in kcal or grams a day."""

    mass_kg: float | None
    protein: Range | None
    maintenance: Range | None
    learned: bool
    """Whether her own notes, not body size alone, are behind the maintenance."""
    days: int
    """Days of food in the stretch looked at."""
    mean_kcal: float | None
    mean_protein_g: float | None
    exercise_kcal: float
    """What training costs a day, over the last two weeks."""
    availability: float | None
    """Energy left for the body, kcal per kg of lean mass and day."""
    missing: tuple[str, ...]
    """What would have to be known for a maintenance."""


@dataclass(frozen=True, slots=True)
class Aimed:
    """An intake that may be offered for an aim, with what it would do in four weeks."""

    guidance: Guidance
    change_kg: Range | None


def food(book: Book, trend: WeightTrend | None) -> Food:
    """What can be said of food from what she noted."""
    mass, notes = usual_mass_kg(book), recent_days(eaten(book), book.today)
    people = persons(mass, choices(book), book.profile())
    proteins = [one.protein_g for one in notes if one.protein_g is not None]
    mean = fmean(one.kcal for one in notes) if notes else None
    exercise = exercise_kcal(book, mass or 0.0)
    maintenance, learned = _maintenance(people, notes, trend)
    left = [energy_availability(mean, exercise, one.lean_kg) for one in people if mean is not None]
    return Food(
        mass_kg=mass,
        protein=protein_grams(mass) if mass else None,
        maintenance=maintenance,
        learned=learned,
        days=len(notes),
        mean_kcal=mean,
        mean_protein_g=fmean(proteins) if proteins else None,
        exercise_kcal=exercise,
        availability=fmean(left) if left and len(notes) >= LEAST_DAYS else None,
        missing=_missing(mass, choices(book), book.profile()),
    )


def recent_days(notes: Sequence[Eaten], today: date) -> tuple[Eaten, ...]:
    """The notes of the last four weeks, today left out because the day is not over."""
    first = today - timedelta(days=STRETCH_DAYS)
    return tuple(one for one in notes if first <= one.day < today)


def persons(mass: float | None, chosen: Choices, profile: Profile) -> tuple[Person, ...]:
    """Her, or the two ends of what she may be where fat mass is not given; else nobody."""
    if mass is None or chosen.height_cm is None or chosen.age is None or profile.female is None:
        return ()
    fats = [mass * FAT_LOW, mass * FAT_HIGH]
    if chosen.fat_kg is not None and chosen.fat_kg < mass:
        fats = [float(chosen.fat_kg)]
    one = Person(
        mass_kg=mass,
        height_cm=float(chosen.height_cm),
        age=float(chosen.age),
        female=profile.female,
        fat_kg=fats[0],
    )
    return tuple(replace(one, fat_kg=fat) for fat in fats)


def _missing(mass: float | None, chosen: Choices, profile: Profile) -> tuple[str, ...]:
    asked = (
        ("body mass", mass),
        ("height", chosen.height_cm),
        ("age", chosen.age),
        ("sex", profile.female),
    )
    return tuple(name for name, value in asked if value is None)


def _maintenance(
    people: Sequence[Person], notes: Sequence[Eaten], trend: WeightTrend | None
) -> tuple[Range | None, bool]:
    if not people:
        return None, False
    if len(notes) < LEAST_DAYS or trend is None:
        return _span([maintenance_before(one) for one in people]), False
    logged = logged_days(notes, trend)
    return _span([maintenance_from(logged, one) for one in people]), True


def logged_days(notes: Sequence[Eaten], trend: WeightTrend) -> Logged:
    """Mean intake over the notes with the slope of the weight trend, both with their error."""
    kcal = [one.kcal for one in notes]
    spread = stdev(kcal) if len(kcal) > 1 else UNKNOWN_DAY_KCAL
    return Logged(
        days=len(kcal),
        intake_kcal=fmean(kcal),
        intake_se=spread / sqrt(len(kcal)),
        slope_kg_week=trend.slope_kg_week,
        slope_se=(trend.high95 - trend.low95) / (2 * TWO_SIDED_95),
    )


def _span(ranges: Sequence[Range]) -> Range:
    """The widest of several ranges."""
    return Range(
        min(one.low for one in ranges),
        fmean(one.middle for one in ranges),
        max(one.high for one in ranges),
    )


def exercise_kcal(book: Book, mass_kg: float) -> float:
    """Energy of training beyond resting, kcal a day over the last two weeks."""
    days = 14
    sets = book.history().since(book.today - timedelta(days=days - 1))
    hours = 0.0
    for key in {(done.day, done.session) for done in sets}:
        of_it = [done for done in sets if (done.day, done.session) == key]
        hours += (minutes_taken(of_it) or 0.0) / 60
    return (SESSION_MET - RESTING_MET) * mass_kg * hours / days


def aim(book: Book, seen: Food, wanted_kcal: float) -> Aimed | None:
    """What may be offered for so many kcal below (or, negative, above) maintenance."""
    people = persons(seen.mass_kg, choices(book), book.profile())
    if not people or seen.maintenance is None:
        return None
    level = seen.maintenance.middle
    if wanted_kcal <= 0:
        offered = surplus_guidance(level)
    elif why := no_deficit(book, seen):
        offered = Guidance(None, why)
    else:
        offered = deficit_guidance(wanted_kcal, level, people[0], seen.exercise_kcal)
    if offered.intake_kcal is None:
        return Aimed(offered, None)
    change = offered.intake_kcal - level
    after = sorted(weight_after(change, AHEAD_DAYS, dynamics(one)) for one in people)
    return Aimed(offered, Range(after[0], fmean(after), after[-1]))


def no_deficit(book: Book, seen: Food) -> tuple[str, ...]:
    """Why nothing below maintenance is offered, if so: every reason of the cautions."""
    health, left = book.profile().health, seen.availability
    reasons = (
        (health is Health.UNDER_18, "No deficit under 18."),
        (health is Health.PREGNANCY, "No deficit in pregnancy or soon after."),
        (periods_absent(book), "No deficit while periods are absent: see a clinician."),
        (
            periods_irregular(book),
            "No deficit while periods are newly irregular: see a clinician.",
        ),
        (
            choices(book).bone_stress,
            "No deficit after more than one stress fracture: see a clinician.",
        ),
        (
            left is not None and left < LOW_ENERGY_KCAL_KG,
            "No deficit while the energy left for the body is estimated as low: see a clinician.",
        ),
    )
    return tuple(words for so, words in reasons if so)


def largest_deficit() -> int:
    """The largest deficit ever offered, kcal a day."""
    return int(DEFICIT_FLOOR)


def periods_absent(book: Book) -> bool:
    """Whether she logs her cycle, expects periods, and had none for three months."""
    starts = _expected_periods(book)
    return bool(starts) and (book.today - starts[-1]).days >= ABSENT_DAYS


def periods_irregular(book: Book) -> bool:
    """Whether her logged cycles have become irregular, where periods are expected."""
    return irregular(_expected_periods(book))


def _expected_periods(book: Book) -> tuple[date, ...]:
    """First days of periods, where she logs them and expects them; else none."""
    chosen = choices(book)
    return periods(book) if chosen.cycle and chosen.periods_expected else ()
