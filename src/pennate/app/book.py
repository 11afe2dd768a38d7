"""Her records, opened: what is stored, and what is derived from it and kept at hand.

Everything derived is cached by the ledger's position and rebuilt when entries arrive that
touch it, so a page after a logged set costs one update, not a replay of years.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

from pennate.app.gyms import KIT, carriers_of
from pennate.app.keep import LEDGER_FILE
from pennate.app.remembered import before_the_log, remembered_sets
from pennate.app.unnamed import Setting, Unnamed, settled, unnamed_sets
from pennate.app.watched import Watch, unwatched, watched
from pennate.core.exercise import Catalogue
from pennate.core.felt import Carrier
from pennate.core.gym import Gym
from pennate.core.history import History
from pennate.core.performed import PerformedSet
from pennate.core.prescribed import Week
from pennate.core.profile import Profile
from pennate.core.quantities import Unit, exact_text
from pennate.core.readiness import Health
from pennate.errors import InputError, StateError
from pennate.estimate import ExposureReader, Person, StrengthModel, outcome_of
from pennate.files.catalogue import read_catalogue
from pennate.files.gym import read_gym
from pennate.files.gym_text import render_gym
from pennate.files.week import read_week, render_week
from pennate.ledger import RETRACTION, Entry, Ledger, uuid7
from pennate.ledger.sets import SET, Problem, set_of, sets_from


class Book:
    """One lifter's records and what follows from them. Safe to share between threads."""

    def __init__(self, ledger: Ledger, now: Callable[[], datetime], rng: Random) -> None:
        self.ledger = ledger
        self.now = now
        self.rng = rng
        self.watch: Watch = unwatched
        self.lock = threading.RLock()
        self._position = -1
        self._generation = ""
        self._read_at: tuple[str, int] = ("", -1)
        self._read: dict[str, tuple[Entry, ...]] = {}
        self._sets: tuple[History, tuple[Problem, ...]] = (History(()), ())
        self._unnamed: dict[str, Unnamed] = {}
        self._settled = History(())
        self._parsed: dict[tuple[str, str], Any] = {}
        self._models: dict[date, StrengthModel] = {}

    @classmethod
    def open(cls, where: Path | str, now: Callable[[], datetime], rng: Random) -> Book:
        """Open the records in a folder, or at a database URL."""
        if isinstance(where, str) and "://" in where:
            return cls(Ledger.open(where), now, rng)
        folder = Path(where)
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            why = (error.strerror or str(error)).lower()
            raise StateError(f"{folder}: the records cannot be kept here ({why})") from None
        return cls(Ledger.open(folder / LEDGER_FILE), now, rng)

    def close(self) -> None:
        """Give back the database."""
        self.ledger.close()

    # Entries

    def put(
        self, kind: str, day: date, body: Mapping[str, Any], *, replaces: str | None = None
    ) -> Entry:
        """Write one entry, made now."""
        with self.lock:
            entry = self.entry(kind, day, body, replaces=replaces)
            self.ledger.append([entry])
            return entry

    def entry(
        self, kind: str, day: date, body: Mapping[str, Any], *, replaces: str | None = None
    ) -> Entry:
        """An entry made now, not yet written."""
        moment = self.now()
        return Entry(
            id=uuid7(moment, self.rng),
            kind=kind,
            day=day,
            made_at=moment,
            body=body,
            replaces=replaces,
        )

    def entries(self, kind: str) -> tuple[Entry, ...]:
        """Current entries of a kind, by day and arrival; read anew only after a write."""
        with self.lock:
            revision = self.ledger.revision()
            if revision != self._read_at:
                self._read_at, self._read = revision, {}
            if kind not in self._read:
                self._read[kind] = self.ledger.entries(kind)
            return self._read[kind]

    def latest(self, kind: str) -> Entry | None:
        """The entry of a kind that was written last."""
        entries = self.entries(kind)
        return max(reversed(entries), key=lambda entry: entry.made_at, default=None)

    @property
    def today(self) -> date:
        """The local day."""
        return self.now().date()

    # What she said

    def profile(self) -> Profile:
        """Her answers; all unknown on an empty ledger."""
        entry = self.latest("profile")
        body = entry.body if entry else {}
        mass = body.get("body_mass_kg")
        return Profile(
            health=Health(body["health"]) if body.get("health") else None,
            female=body.get("female"),
            body_mass_kg=Fraction(mass) if mass else None,
            trained=body.get("trained"),
            unit=Unit(body.get("unit", "kg")),
        )

    def save_profile(self, profile: Profile) -> None:
        """Write her answers."""
        body = {
            "health": profile.health.value if profile.health else None,
            "female": profile.female,
            "body_mass_kg": exact_text(profile.body_mass_kg) if profile.body_mass_kg else None,
            "trained": profile.trained,
            "unit": profile.unit.value,
        }
        self.put("profile", self.today, body)

    def week(self) -> Week | None:
        """The week she follows."""
        entry = self.week_entry()
        return self._week_of(entry) if entry else None

    def weeks(self) -> list[Week]:
        """Every week she has followed, in the order they were saved."""
        return [self._week_of(one) for one in self.entries("week")]

    def week_entry(self) -> Entry | None:
        """The entry of that week: one for some days only gives way to the usual one after."""
        entry = self.latest("week")
        while entry and date.fromisoformat(str(entry.body.get("until", LAST_DAY))) < self.today:
            usual = str(entry.body.get("then", ""))
            entry = next((one for one in self.entries("week") if one.id == usual), None)
        return entry

    def _week_of(self, entry: Entry) -> Week:
        key = ("week", entry.id)
        if key not in self._parsed:
            self._parsed[key] = read_week(
                str(entry.body["text"]), read_catalogue(), name="your week"
            )
        week: Week = self._parsed[key]
        return week

    def save_week(self, week: Week) -> None:
        """Store a week as its text."""
        self.put("week", self.today, {"text": render_week(week)})

    def gyms(self) -> tuple[Gym, ...]:
        """Every gym she has described, the one used last first."""
        newest: dict[str, tuple[datetime, Gym]] = {}
        for entry in self.entries("gym"):
            gym = self._gym_of(entry)
            if gym.id not in newest or newest[gym.id][0] <= entry.made_at:
                newest[gym.id] = (entry.made_at, gym)
        return tuple(gym for _, gym in sorted(newest.values(), key=lambda p: p[0], reverse=True))

    def _gym_of(self, entry: Entry) -> Gym:
        key = ("gym", entry.id)
        if key not in self._parsed:
            self._parsed[key] = read_gym(str(entry.body["text"]), name="your gym")
        gym: Gym = self._parsed[key]
        return gym

    def save_gym(self, gym: Gym) -> None:
        """Store a gym as its text; the newest of an id holds."""
        self.put("gym", self.today, {"id": gym.id, "text": render_gym(gym)})

    def gym(self) -> Gym | None:
        """The gym her week names, else the one described last."""
        gyms = self.gyms()
        week = self.week()
        named = next((g for g in gyms if week and g.id == week.gym), None)
        return named or (gyms[0] if gyms else None)

    # What follows

    @property
    def catalogue(self) -> Catalogue:
        """The shipped exercises and her own."""
        week = self.week()
        return read_catalogue(week.own_exercises) if week else read_catalogue()

    def person(self) -> Person:
        """What the strength model may know of her."""
        profile = self.profile()
        mass = profile.body_mass_kg
        return Person(
            female=profile.female,
            body_mass_kg=float(mass) if mass else None,
            trained=profile.trained,
        )

    def carriers(self) -> dict[str, Carrier]:
        """What the plates hang on, by item, over all her gyms; the current gym wins.

        A thing that was taken away is kept, so that what was lifted on it keeps its meaning.
        """
        merged: dict[str, Carrier] = {}
        for entry in sorted(self.entries("gym"), key=lambda one: one.made_at):
            merged.update(carriers_of(self._gym_of(entry)))
        current = self.gym()
        if current:
            merged.update(carriers_of(current))
        return merged

    def history(self) -> History:
        """Every performed set; one that names no equipment on what it is taken to count for."""
        with self.lock:
            self._catch_up()
            return self._settled

    def as_written(self) -> History:
        """Every performed set as it was written down."""
        with self.lock:
            self._catch_up()
            return self._sets[0]

    def unnamed(self) -> Mapping[str, Unnamed]:
        """What the sets without equipment count for, by exercise."""
        with self.lock:
            self._catch_up()
            return self._unnamed

    def problems(self) -> tuple[Problem, ...]:
        """Stored sets that cannot be read, with the reason."""
        with self.lock:
            self._catch_up()
            return self._sets[1]

    def model_before(self, day: date) -> StrengthModel:
        """The strength model on the morning of a day, replayed from all sets before it."""
        with self.lock:
            self._catch_up()
            if day not in self._models:
                self._models = {day: self._fitted(day)}
            return self._models[day].copy()

    def _fitted(self, day: date) -> StrengthModel:
        """The model of a morning; from that of an earlier one it goes on where that stopped."""
        sets = self._settled.before(day)
        known = max((m for m in self._models if m < day), default=None)
        reader = self._reader(self._settled.before(known or date.min))
        if known is not None:
            model, sets = self._models[known].copy(), sets.since(known)
        else:
            model = StrengthModel.start(self.catalogue, self.person())
            for done in before_the_log(remembered_sets(self.ledger), self._settled):
                model.remembered(reader.exposure(done), done.reps)
        for done in watched(sets, len(sets), self.watch):
            model.observe(reader.exposure(done), outcome_of(done))
        return model

    def reader_on(self, day: date) -> ExposureReader:
        """What reads sets from a morning on, knowing her body mass as it was last told before."""
        return self._reader(self.history().before(day))

    def _reader(self, before: History) -> ExposureReader:
        reader = ExposureReader(self.catalogue, self.person(), self.carriers())
        return reader.after(reversed(before.sets))

    def _catch_up(self) -> None:
        """Take in what was written since the last look; rebuild only what it touches."""
        generation, position = self.ledger.revision()
        if generation != self._generation:
            self._position, self._models, self._parsed = -1, {}, {}
            self._generation = generation
        if position == self._position:
            return
        started = self._position >= 0
        news = self.ledger.everything(after=self._position) if started else ()
        fresh = [entry for _, entry in news]
        morning = max(self._models, default=date.min)
        if not (started and all(_leaves_morning(entry, morning) for entry in fresh)):
            self._models = {}
        if started and all(entry.kind in _NO_SETS or _is_new_set(entry) for entry in fresh):
            added = [set_of(entry) for entry in fresh if entry.kind == SET]
            if added:
                self._sets = (History.of((*self._sets[0].sets, *added)), self._sets[1])
                self._settle(added)
        else:
            self._sets = sets_from(self.ledger)
            self._settle(None)
        self._position = position

    def _settle(self, added: list[PerformedSet] | None) -> None:
        """Put every set, or those added, on what it counts for.

        Where an older set counts for another thing now, the models are made anew.
        """
        before = self._unnamed
        if added is None or any(map(self._may_decide, added)):
            self._unnamed = unnamed_sets(self._sets[0], self.catalogue, self._setting)
        same = _places(before) == _places(self._unnamed)
        if not same:
            self._models = {}
        if added is None or not same:
            self._settled = settled(self._sets[0], self._unnamed)
        else:
            news = settled(History(tuple(added)), self._unnamed)
            self._settled = History.of((*self._settled, *news))

    def _may_decide(self, done: PerformedSet) -> bool:
        """Whether a new set may say what older ones count for: itself unnamed, or the first."""
        bare = self._unnamed.get(done.exercise)
        return not done.equipment or done.day < self.today or (bare is not None and bare.open)

    def _setting(self, day: date | None) -> Setting:
        """Week and gym as they were on a day, else the first after it; None: as they are now.

        A week for some days only, and a kit for the road, are where nobody trained for months.
        """
        usual = [one for one in self.entries("week") if "until" not in one.body]
        entry = _in_force(usual, day)
        week = self._week_of(entry) if entry else None
        gyms = [(one, self._gym_of(one)) for one in self.entries("gym")]
        of_week = [one for one, gym in gyms if week and gym.id == week.gym]
        chosen = _in_force(of_week or [one for one, gym in gyms if gym.id != KIT], day)
        return week, next((gym for one, gym in gyms if one is chosen), None)


LAST_DAY = date.max.isoformat()
_NO_SETS = frozenset(
    {"brief", "block", "decision", "session", "readiness", "note", "girth", "weight"}
    | {"sleep", "intake", "period", "bleeding", "pain", "body_choice", "photo"}
)
"""Kinds of entry that neither are sets nor change what a load means."""


def _places(found: Mapping[str, Unnamed]) -> dict[str, str]:
    return {exercise: one.item.id for exercise, one in found.items() if one.item is not None}


def _in_force(entries: list[Entry], day: date | None) -> Entry | None:
    """The entry written last by the end of a day, else the first of all."""
    ordered = sorted(entries, key=lambda one: one.made_at)
    by_then = [one for one in ordered if day is None or one.made_at.date() <= day]
    return by_then[-1] if by_then else ordered[0] if ordered else None


def _is_new_set(entry: Entry) -> bool:
    return entry.kind == SET and entry.replaces is None


def _leaves_morning(entry: Entry, morning: date) -> bool:
    """Whether the model of that morning stays as it is with this entry."""
    if entry.kind in _NO_SETS:
        return True
    return entry.kind in {SET, RETRACTION} and entry.day >= morning > date.min


def with_answers(profile: Profile, **answers: Any) -> Profile:
    """A profile with some answers changed; raises InputError for an impossible body mass."""
    changed = replace(profile, **answers)
    mass = changed.body_mass_kg
    if mass is not None and not 25 <= mass <= 350:
        raise InputError(
            f"a body mass of {float(mass):g} kg is hardly possible",
            remedy="write it in kilograms, like 64.5, or leave it empty",
        )
    return changed
