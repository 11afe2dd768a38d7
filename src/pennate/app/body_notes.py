"""What she notes of her body, as entries: girths, weighings, nights, food, cycle, pain, choices.

All of it is private: it lies in the ledger on this machine and enters nothing that is shared.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from fractions import Fraction
from operator import attrgetter
from statistics import fmean
from typing import Any

from pennate.app.at_hand import AtHand
from pennate.app.body_masses import with_masses
from pennate.app.body_pages import BodyRecord
from pennate.app.body_record import PERIOD, note_period, record_of
from pennate.app.book import Book
from pennate.body.pain import PainReport
from pennate.core.body import TRUNK, Measurement, Site, TapeState, Weighing
from pennate.core.cautions import alarming_joint_words
from pennate.core.evidence.body import LARGEST_GIRTH, REFUSE_FACTOR, SMALLEST_GIRTH
from pennate.core.muscles import Joint
from pennate.core.performed import PerformedSet, Side
from pennate.core.quantities import exact_text
from pennate.core.readiness import Health
from pennate.errors import InputError, Where
from pennate.ledger import Entry
from pennate.ledger.measured import (
    girth_entries,
    weighings_from,
    weight_entry,
)

SLEEP, INTAKE, BLEEDING = "sleep", "intake", "bleeding"
PAIN, CHOICES = "pain", "body_choice"
READINESS = "readiness"

MOST_READINGS = 9
OLDEST_YEARS = 30
BOUNDS: Mapping[str, tuple[int, int, str]] = {
    "weight": (25, 350, "kg"),
    "skinfold": (1, 120, "mm"),
    "sleep": (0, 16, "hours"),
    "intake": (300, 12_000, "kcal"),
    "protein": (0, 600, "g"),
    "height": (100, 230, "cm"),
    "age": (10, 110, "years"),
    "fat": (2, 200, "kg"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Taped:
    """Readings of one site on one day, as she entered them; side None on the trunk."""

    day: date
    site: Site
    state: TapeState = TapeState.RELAXED
    girths: Mapping[Side | None, tuple[Fraction, ...]]
    skinfolds: Mapping[Side | None, Fraction] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What she wants to see, and what energy may know of her. All of it may be left out."""

    hide_weight: bool = False
    cycle: bool = False
    """Off unless she turns it on."""
    periods_expected: bool = True
    bone_stress: bool = False
    """She had more than one stress fracture."""
    height_cm: Fraction | None = None
    age: Fraction | None = None
    fat_kg: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Night:
    """Hours slept before the day."""

    day: date
    hours: float


@dataclass(frozen=True, slots=True)
class Eaten:
    """What she noted of a day's food."""

    day: date
    kcal: float
    protein_g: float | None


def within(what: str, value: Fraction, where: str) -> Fraction:
    """The value, if it can be so; raises InputError naming the field otherwise."""
    low, high, unit = BOUNDS[what]
    if not low <= value <= high:
        said = f"{float(value):g} {unit} is outside {low} to {high} {unit}"
        raise InputError(said, Where(field=where), "check the number and its unit")
    return value


def girth_within(site: Site, cm: Fraction, where: str) -> Fraction:
    """A girth somebody could have there; raises InputError with the likely slip otherwise."""
    low, high = SMALLEST_GIRTH[site] / REFUSE_FACTOR, LARGEST_GIRTH[site] * REFUSE_FACTOR
    if low <= cm <= high:
        return cm
    slips = ((0.1, "millimetres"), (2.54, "inches"))
    unit = next((name for by, name in slips if low <= float(cm) * by <= high), "")
    raise InputError(
        f"{float(cm):g} cm is no girth of a {site.value} ({low:.0f} to {high:.0f} cm)",
        Where(field=where),
        f"is it in {unit}? Write it in centimetres" if unit else "check the number",
    )


def on_day(book: Book, day: date) -> date:
    """A day something can have been measured on; raises InputError otherwise."""
    if day > book.today:
        raise InputError(f"{day} is still to come", Where(field="Day"), "choose today or earlier")
    if day.year < book.today.year - OLDEST_YEARS:
        raise InputError(f"{day} is long ago", Where(field="Day"), "check the year")
    return day


def save_girths(book: Book, taped: Taped) -> tuple[str, ...]:
    """Store the readings, all or nothing, and give the ids of the entries.

    Raises InputError where nothing was read, a value is impossible, or a side has too many.
    """
    on_day(book, taped.day)
    sides: tuple[Side | None, ...] = (None,) if taped.site in TRUNK else tuple(Side)
    rows = [row for side in sides if (row := _row(taped, side)) is not None]
    if not rows:
        raise InputError("no reading is filled in", remedy="one number is enough; three are better")
    with book.lock:
        now = book.now()
        entries = [one for row in rows for one in girth_entries(row, now=now, rng=book.rng)]
        book.ledger.append(entries)
    return tuple(entry.id for entry in entries)


def _row(taped: Taped, side: Side | None) -> Measurement | None:
    name = f"{side.value} {taped.site.value}" if side else taped.site.value
    readings = taped.girths.get(side, ())
    if len(readings) > MOST_READINGS:
        raise InputError(f"{len(readings)} readings", Where(field=name), f"{MOST_READINGS} at most")
    fold = taped.skinfolds.get(side)
    if not readings and fold is None:
        return None
    return Measurement(
        day=taped.day,
        site=taped.site,
        side=side,
        girths_cm=tuple(girth_within(taped.site, one, name) for one in readings),
        skinfold_mm=None if fold is None else within("skinfold", fold, f"{name}, skinfold"),
        state=taped.state,
    )


def save_weight(book: Book, day: date, kg: Fraction) -> str:
    """Store a weighing and give the entry's id."""
    weighed = Weighing(day=on_day(book, day), kg=within("weight", kg, "Weight"))
    entry = weight_entry(weighed, now=book.now(), rng=book.rng)
    book.ledger.append([entry])
    return entry.id


def save_sleep(book: Book, day: date, hours: Fraction) -> str:
    """Store the hours slept before a day; a second note of the day replaces the first."""
    kept = within("sleep", hours, "Hours slept")
    return _once_a_day(book, SLEEP, on_day(book, day), {"hours": exact_text(kept)})


def save_intake(book: Book, day: date, kcal: Fraction, protein_g: Fraction | None = None) -> str:
    """Store a day's food; a second note of the day replaces the first."""
    body = {"kcal": exact_text(within("intake", kcal, "Energy"))}
    if protein_g is not None:
        body["protein_g"] = exact_text(within("protein", protein_g, "Protein"))
    return _once_a_day(book, INTAKE, on_day(book, day), body)


def _once_a_day(book: Book, kind: str, day: date, body: Mapping[str, Any]) -> str:
    before = book.ledger.entries(kind, since=day, until=day)
    if before and dict(before[-1].body) == dict(body):
        return before[-1].id
    return book.put(kind, day, body, replaces=before[-1].id if before else None).id


def save_period(book: Book, day: date, *, last: bool = False) -> None:
    """Store the first day of a period, or the last day of bleeding; twice is once."""
    on_day(book, day)
    kind = BLEEDING if last else PERIOD
    if book.ledger.entries(kind, since=day, until=day):
        return
    if last:
        book.put(BLEEDING, day, {"last": True})
    else:
        note_period(book, day)


def save_morning(book: Book, day: date, joint: str, score: int, *, alarming: bool = False) -> str:
    """Store how a joint feels on a morning, 0 to 10."""
    if joint not in set(Joint):
        raise InputError(f"“{joint[:20]}” is not a joint", remedy=f"one of: {', '.join(Joint)}")
    if not 0 <= score <= 10:
        raise InputError(f"pain {score}", Where(field="How much"), "a number from 0 to 10")
    body = {"joint": joint, "score": score, "alarming": alarming}
    return book.put(PAIN, on_day(book, day), body).id


def choices(book: Book) -> Choices:
    """What she chose last; weight shown and cycle off before she chose anything."""
    entry = book.latest(CHOICES)
    body = entry.body if entry else {}
    said = Choices(
        hide_weight=bool(body.get("hide_weight", False)),
        cycle=bool(body.get("cycle", False)),
        periods_expected=bool(body.get("periods_expected", True)),
        bone_stress=bool(body.get("bone_stress", False)),
        **{name: _number(body.get(name)) for name in ("height_cm", "age", "fat_kg")},
    )
    if book.profile().health is Health.PREGNANCY:
        return replace(said, periods_expected=False)
    return said


def choose(book: Book, changed: Choices) -> None:
    """Store what she chose. Raises InputError for impossible numbers."""
    body: dict[str, Any] = {
        "hide_weight": changed.hide_weight,
        "cycle": changed.cycle,
        "periods_expected": changed.periods_expected,
        "bone_stress": changed.bone_stress,
    }
    for name, what in (("height_cm", "height"), ("age", "age"), ("fat_kg", "fat")):
        value = getattr(changed, name)
        body[name] = None if value is None else exact_text(within(what, value, what.capitalize()))
    book.put(CHOICES, book.today, body)


def _number(text: object) -> Fraction | None:
    return Fraction(str(text)) if text else None


def check_ins(book: Book) -> tuple[Entry, ...]:
    """The last check-in of every day, which holds all that was said before it that day."""
    last: dict[date, Entry] = {}
    for entry in sorted(book.entries(READINESS), key=attrgetter("made_at")):
        last[entry.day] = entry
    return tuple(last[day] for day in sorted(last))


def corrected(book: Book) -> frozenset[tuple[date, str]]:
    """Days and joints of which she told at a set otherwise than it was."""
    entries = check_ins(book)
    return frozenset((one.day, str(j)) for one in entries for j in one.body.get("corrected", ()))


def pain_of(done: PerformedSet, mended: Collection[tuple[date, str]]) -> dict[str, int]:
    """What hurt at a set, without the joints she has corrected since."""
    return {joint: score for joint, score in done.pain.items() if (done.day, joint) not in mended}


def nights(book: Book) -> tuple[Night, ...]:
    """Nights noted, oldest first."""
    found = book.entries(SLEEP)
    return tuple(Night(entry.day, float(Fraction(entry.body["hours"]))) for entry in found)


def eaten(book: Book) -> tuple[Eaten, ...]:
    """Days of food noted, oldest first."""
    return tuple(
        Eaten(entry.day, float(Fraction(entry.body["kcal"])), _float(entry.body.get("protein_g")))
        for entry in book.entries(INTAKE)
    )


def _float(text: object) -> float | None:
    return float(Fraction(str(text))) if text else None


def periods(book: Book) -> tuple[date, ...]:
    """First days of periods, oldest first."""
    return tuple(sorted({entry.day for entry in book.entries(PERIOD)}))


def bleeding_days(book: Book) -> int | None:
    """Days of bleeding of the latest period, both ends counted; None where not said."""
    starts, ends = periods(book), [entry.day for entry in book.entries(BLEEDING)]
    if not starts or not ends or max(ends) < starts[-1]:
        return None
    return (max(ends) - starts[-1]).days + 1


def body_record(book: Book) -> BodyRecord:
    """Everything the verdicts and the review rest on.

    A girth without body mass takes the mean of the weighings about its day, so that her
    daily weighings free the change of fat. Periods count only while the cycle is turned on.
    """
    chosen = choices(book)
    read = record_of(book, periods_expected=chosen.periods_expected)
    return replace(
        read,
        measurements=with_masses(read.measurements, read.weighings),
        periods=read.periods if chosen.cycle else (),
        pain=pain_reports(book),
    )


def pain_reports(book: Book) -> tuple[PainReport, ...]:
    """The worst pain of a joint on each day, with the next morning where it was noted."""
    return _PAIN_REPORTS.of(book)


def _pain_reports(book: Book) -> tuple[PainReport, ...]:
    worst: dict[tuple[date, str], tuple[int, bool]] = {}
    mornings: dict[tuple[date, str], int] = {}
    for day, joint, score, alarming in _said_to_hurt(book):
        before = worst.get((day, joint), (0, False))
        worst[day, joint] = (max(score, before[0]), alarming or before[1])
    for entry in book.entries(PAIN):
        joint, score = str(entry.body["joint"]), int(entry.body["score"])
        mornings[entry.day, joint] = score
        eve = (entry.day - timedelta(days=1), joint)
        if eve not in worst or entry.body.get("alarming"):
            worst[entry.day, joint] = (score, bool(entry.body.get("alarming")))
    return tuple(
        PainReport(day, joint, score, mornings.get((day + timedelta(days=1), joint)), alarming)
        for (day, joint), (score, alarming) in sorted(worst.items())
    )


_PAIN_REPORTS = AtHand(_pain_reports)


def _said_to_hurt(book: Book) -> list[tuple[date, str, int, bool]]:
    """Pain named beside a set or in a check-in: day, joint, score, and whether it alarms."""
    found: list[tuple[date, str, int, bool]] = []
    mended = corrected(book)
    for done in book.history():
        pain = pain_of(done, mended) if done.pain else {}
        alarming = bool(pain) and bool(alarming_joint_words(done.note))
        found.extend((done.day, joint, score, alarming) for joint, score in pain.items())
    for entry in check_ins(book):
        pain = dict(entry.body.get("pain", {}))
        alarms = entry.body.get("alarming", ())
        found.extend(
            (entry.day, str(joint), int(score), joint in alarms) for joint, score in pain.items()
        )
    return found


def usual_mass_kg(book: Book) -> float | None:
    """Her body mass of late: the mean of the latest week weighed, else what she once said."""
    weighed = weighings_from(book.ledger)[0]
    if weighed:
        week = [float(w.kg) for w in weighed if (weighed[-1].day - w.day).days < 7]
        return fmean(week)
    mass = book.profile().body_mass_kg
    return float(mass) if mass else None
