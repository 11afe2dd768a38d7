"""The first run: from an empty ledger to the first set, one short answer at a time."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pennate.app.book import Book, with_answers
from pennate.app.gyms import starter_gym
from pennate.app.remembered import REMEMBERED, remembered_body, remembered_sets, set_of
from pennate.app.stops import item_asked, item_for
from pennate.app.swaps import fitted_to
from pennate.app.weeks import starter_week
from pennate.core.exercise import EquipmentKind, Exercise
from pennate.core.gym import AnyItem
from pennate.core.load_words import lacks_load
from pennate.core.plural import plural
from pennate.core.prescribed import PlannedDay, Week
from pennate.core.quantities import Unit
from pennate.core.readiness import Health
from pennate.errors import InputError
from pennate.loading import Written, read_load

MOST_REPS = 50


@dataclass(frozen=True, slots=True)
class AskAbout:
    """An exercise of her week of which one remembered set would help."""

    exercise: str
    name: str
    item: str
    item_name: str
    loaded: bool
    """Whether it has a load to remember; else reps alone."""
    known: str
    """What she remembered already, in words."""


@dataclass(frozen=True, slots=True)
class StartState:
    """What is set and what is still missing."""

    has_gym: bool
    has_week: bool
    health_answered: bool
    ask_about: tuple[AskAbout, ...]
    sets_logged: int

    @property
    def ready(self) -> bool:
        """Whether a session can begin."""
        return self.has_gym and self.has_week


def start_state(book: Book) -> StartState:
    """Where the first run stands."""
    week = book.week()
    return StartState(
        has_gym=book.gym() is not None,
        has_week=week is not None,
        health_answered=book.profile().health is not None,
        ask_about=_ask_about(book, week) if week else (),
        sets_logged=len(book.history()),
    )


def take_starter_gym(book: Book, starter: str) -> tuple[str, ...]:
    """Take a starter gym; a week that is set already is fitted to it. Gives what was replaced."""
    gym = starter_gym(starter)
    book.save_gym(gym)
    week = book.week()
    return use_week(book, week) if week else ()


def take_starter_week(book: Book, starter: str) -> tuple[str, ...]:
    """Take a starter week, fitted to the gym she has; gives what was replaced."""
    return use_week(book, starter_week(starter, book.catalogue))


def use_week(book: Book, week: Week) -> tuple[str, ...]:
    """Follow this week; exercises her gym cannot carry are replaced, and that is said."""
    gym = book.gym()
    if gym is None:
        book.save_week(week)
        return ()
    fitted, lines = fitted_to(week, gym, book.catalogue)
    if lines:
        book.save_week(week)  # as it is written: what her gym comes to carry returns from it
    book.save_week(fitted)
    return lines


def begin_own_week(book: Book, days: tuple[str, ...], name: str = "My week") -> None:
    """Begin an empty week on these weekdays; exercises are added on the week page."""
    if not days:
        raise InputError("no day is chosen", remedy="choose at least one day to train")
    gym = book.gym()
    planned = tuple(PlannedDay(day=day) for day in days)
    book.save_week(Week(name=name, days=planned, gym=gym.id if gym else ""))


def answer_health(book: Book, health: Health) -> None:
    """Keep her answer to the one health question on this machine."""
    book.save_profile(with_answers(book.profile(), health=health))


def set_person(
    book: Book,
    *,
    female: bool | None,
    body_mass_kg: Fraction | None,
    trained: bool | None,
    unit: Unit,
) -> None:
    """Keep what makes the first loads better; every part may be left open."""
    changed = with_answers(
        book.profile(), female=female, body_mass_kg=body_mass_kg, trained=trained, unit=unit
    )
    book.save_profile(changed)


def remember(book: Book, exercise: str, written: Written | None, reps: int, item: str = "") -> None:
    """Store one remembered set; `written` None is body weight alone.

    Raises InputError for an unknown exercise, impossible reps, a load the item cannot carry, or
    none where there must have been one.
    """
    found = book.catalogue.find(exercise)
    if found is None:
        raise InputError(f"there is no exercise “{exercise}”", remedy="choose one from the list")
    if not 1 <= reps <= MOST_REPS:
        raise InputError(f"{reps} reps", remedy=f"a number from 1 to {MOST_REPS}")
    gym = book.gym()
    place = item_for(gym, found, item) if gym else None
    if gym is not None and place is not None and written is not None:
        read_load(gym, place, written)
    body = remembered_body(found.id, place.id if place else item, written, reps)
    if lacks_load(set_of(body, book.today, 1), found):
        raise InputError(
            f"{found.name}: {plural(reps, 'rep')} without a load tell nothing of strength",
            remedy="write the load, or leave both empty",
        )
    book.put(REMEMBERED, book.today, body)


def _ask_about(book: Book, week: Week) -> tuple[AskAbout, ...]:
    """The counted exercises of her week in order, each once."""
    gym, catalogue = book.gym(), book.catalogue
    known = {done.exercise: done for done in remembered_sets(book.ledger)}
    asked: dict[str, AskAbout] = {}
    for day in week.days:
        for one in day.exercises:
            exercise = catalogue[one.exercise]
            item = item_asked(gym, exercise, one) if gym else None
            if exercise.timed or exercise.id in asked:
                continue
            done = known.get(exercise.id)
            words = ""
            if done is not None:
                load = f"{float(done.load):g} {done.unit} × " if done.load is not None else ""
                words = f"{load}{done.reps}"
            asked[exercise.id] = AskAbout(
                exercise=exercise.id,
                name=exercise.name,
                item=item.id if item else "",
                item_name=item.name if item else "",
                loaded=_has_load(exercise, item),
                known=words,
            )
    return tuple(asked.values())


def _has_load(exercise: Exercise, item: AnyItem | None) -> bool:
    kind = item.kind if item else exercise.equipment[0]
    return kind is not EquipmentKind.BODY_WEIGHT
