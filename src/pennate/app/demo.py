"""The demo: a made-up lifter with a year of history, in a folder that is thrown away."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

from pennate.app.book import Book
from pennate.app.demo_body import DemoBody, body_entries
from pennate.app.demo_lifter import BODY_KG, DemoLifter
from pennate.app.gyms import starter_gym
from pennate.app.notes import save_notes
from pennate.app.swaps import fitted_to
from pennate.app.weeks import starter_week
from pennate.core.gym import Gym
from pennate.core.prescribed import WEEKDAYS, Week
from pennate.core.profile import Profile
from pennate.core.quantities import Unit
from pennate.core.readiness import Health
from pennate.files.catalogue import read_catalogue
from pennate.ledger.sets import set_entry

GYM = "commercial_kg_lb"
WEEK = "5_days"
SEED = 11
SHOWN_DAY = "Tuesday"


def make_demo(folder: Path, now: Callable[[], datetime], *, weeks: int = 52) -> Book:
    """Fill a new folder with the made-up lifter and open it; history ends yesterday."""
    book = Book.open(folder, now, Random(SEED))
    gym, week = demo_place(book.today)
    book.save_profile(
        Profile(
            health=Health.NONE,
            female=True,
            body_mass_kg=Fraction(int(BODY_KG)),
            trained=True,
            unit=Unit.KG,
        )
    )
    book.save_gym(gym)
    book.save_week(week)
    lifter = DemoLifter(week, gym, read_catalogue(), Random(SEED))
    sets = lifter.year(book.today - timedelta(days=1), weeks)
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng) for done in sets])
    body = DemoBody(book.today - timedelta(days=1), weeks, Random(SEED))
    book.ledger.append(body_entries(body, now=book.now(), rng=book.rng))
    _own_notes(book)
    return book


def demo_place(today: date) -> tuple[Gym, Week]:
    """Her gym and her week, with exercises the gym lacks replaced.

    The week is turned so that today has the session with top sets, a drop and supersets.
    """
    gym = starter_gym(GYM)
    catalogue = read_catalogue()
    week, _ = fitted_to(starter_week(WEEK, catalogue), gym, catalogue)
    turn = today.weekday() - WEEKDAYS.index(SHOWN_DAY)
    days = (replace(day, day=_turned(day.day, turn)) for day in week.days)
    return gym, replace(week, days=tuple(sorted(days, key=lambda d: WEEKDAYS.index(d.day))))


def _turned(day: str, by: int) -> str:
    return WEEKDAYS[(WEEKDAYS.index(day) + by) % len(WEEKDAYS)]


def _own_notes(book: Book) -> None:
    save_notes(
        book,
        "back_squat_free",
        "rack_bar",
        settings={"rack": "11", "safeties": "6"},
        cue="Elbows under the bar, then sit between the hips.",
        next_time="Chalk before the top set.",
    )
    save_notes(book, "leg_extension", "leg_extension", settings={"seat": "4", "pad": "2"})
