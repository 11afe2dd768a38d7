"""What alarming pain keeps out of the coming sessions until she says that it has settled.

Pain above 5, or sharp, swelling, locking or giving way, stops an exercise. Said at a set, that
exercise is left out of later sessions; said of a joint, as a set closed on the card does too,
whatever loads the joint clearly is. It is over once she reports the joint at 5 or less, or has
done the exercise without it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from operator import attrgetter

from pennate.app.at_hand import AtHand
from pennate.app.body_notes import PAIN, check_ins, corrected, pain_of
from pennate.app.book import Book
from pennate.app.day import DayState
from pennate.app.stops import loaded_joints
from pennate.core.cautions import alarming_joint_words
from pennate.core.exercise import Catalogue
from pennate.core.performed import PerformedSet
from pennate.core.prescribed import PlannedDay
from pennate.core.readiness import ALARM, PainAction, pain_action
from pennate.ledger import Entry


@dataclass(frozen=True, slots=True)
class Hold:
    """Why something is left out: what was said, and when."""

    said: str
    since: date

    @property
    def words(self) -> str:
        """“knee 7 of 10 on 12 May”."""
        return f"{self.said} on {self.since:%-d %B}"


@dataclass(frozen=True, slots=True)
class Holds:
    """All that is held on a day: joints, and exercises by their id."""

    joints: Mapping[str, Hold]
    exercises: Mapping[str, Hold]

    def on(self, exercise: str, catalogue: Catalogue) -> Hold | None:
        """Why an exercise is held, if it is."""
        if exercise in self.exercises:
            return self.exercises[exercise]
        known = catalogue.exercises.get(exercise)
        loaded = loaded_joints(known) if known else []
        return next((self.joints[joint] for joint in loaded if joint in self.joints), None)


@dataclass(frozen=True, slots=True)
class _Statement:
    """What she said of a joint at a moment."""

    day: date
    made_at: datetime
    score: int
    alarming: bool

    @property
    def stops(self) -> bool:
        """Whether the pain rule stops what loads the joint."""
        return pain_action(self.score, alarming=self.alarming) is PainAction.STOP

    @property
    def hold(self) -> Hold:
        """In words, without the joint."""
        alarm = f", {ALARM}" if self.alarming else ""
        return Hold(f"{self.score} of 10{alarm}", self.day)


def holds(book: Book, day: date) -> Holds:
    """What is held on a day, by what was said before it and on it."""
    said = _statements(book, day)
    joints = {
        joint: replace(latest.hold, said=f"{joint} {latest.hold.said}")
        for joint, own in said.items()
        if (latest := max(own, key=lambda one: (one.day, one.made_at))).stops
    }
    return Holds(joints, _at_sets(book, day, said))


def _statements(book: Book, day: date) -> dict[str, list[_Statement]]:
    """What she said of each joint apart from any set, up to a day."""
    found: dict[str, list[_Statement]] = {}
    for entry in check_ins(book):
        alarms = entry.body.get("alarming", ())
        for joint, score in dict(entry.body.get("pain", {})).items():
            one = _Statement(entry.day, entry.made_at, int(score), joint in alarms)
            found.setdefault(str(joint), []).append(one)
    for entry in book.entries(PAIN):
        alarming = bool(entry.body.get("alarming"))
        one = _Statement(entry.day, entry.made_at, int(entry.body["score"]), alarming)
        found.setdefault(str(entry.body["joint"]), []).append(one)
    return {
        joint: known for joint, own in found.items() if (known := [s for s in own if s.day <= day])
    }


@dataclass(frozen=True, slots=True)
class _Told:
    """What was told of an exercise: at one of its sets, or as she stopped it."""

    day: date
    pain: Mapping[str, int]
    note: str

    @property
    def stops(self) -> bool:
        """Whether the pain rule stops the exercise: above 5, or with an alarm sign."""
        worst = max(self.pain.values(), default=0)
        return pain_action(worst, alarming=bool(alarming_joint_words(self.note))) is PainAction.STOP


@dataclass(frozen=True, slots=True)
class _Alarmed:
    """An exercise that ever had an alarm: what was told, and every day it was done or stopped."""

    told: tuple[_Told, ...]
    days: tuple[date, ...]


def _alarmed(book: Book) -> dict[str, _Alarmed]:
    alarms: dict[str, list[_Told]] = {}
    for exercise, one in (*_at_stops(book), *_of_sets(book)):
        if one.stops:
            alarms.setdefault(exercise, []).append(one)
    days = {exercise: [one.day for one in told] for exercise, told in alarms.items()}
    for done in book.history() if alarms else ():
        if done.exercise in days:
            days[done.exercise].append(done.day)
    return {one: _Alarmed(tuple(own), tuple(days[one])) for one, own in alarms.items()}


def _of_sets(book: Book) -> Iterator[tuple[str, _Told]]:
    mended = corrected(book)
    for done in book.history():
        pain = pain_of(done, mended) if done.pain else {}
        if pain or (done.note and not done.pain):  # the sign goes with the joint it was told of
            yield done.exercise, _Told(done.day, pain, done.note)


def _at_stops(book: Book) -> Iterator[tuple[str, _Told]]:
    """Exercises she stopped for pain without a set, unless she took them up again that day."""
    last: dict[tuple[date, str, int], Entry] = {}
    for entry in sorted(book.entries("decision"), key=attrgetter("made_at")):
        if entry.body.get("what") in {"skip", "take up"}:
            last[entry.day, str(entry.body.get("weekday")), int(entry.body["stop"])] = entry
    for entry in last.values():
        exercise, pain = entry.body.get("exercise"), dict(entry.body.get("pain", {}))
        note = str(entry.body.get("note", ""))
        if entry.body["what"] == "skip" and exercise and (pain or note):
            yield str(exercise), _Told(entry.day, pain, note)


_ALARMED = AtHand(_alarmed)


def _at_sets(book: Book, day: date, said: Mapping[str, list[_Statement]]) -> dict[str, Hold]:
    """Exercises whose latest session before a day had an alarm she has not called off since."""
    found = {}
    for exercise, known in _ALARMED.of(book).items():
        last = max((one for one in known.days if one < day), default=None)
        alarms = [one for one in known.told if one.day == last]
        if alarms and not _settled(alarms, said):
            found[exercise] = Hold(_said(alarms), alarms[-1].day)
    return found


def stopped_by(done: PerformedSet) -> bool:
    """Whether the pain said at a set stops its exercise: above 5, or with an alarm sign."""
    return _Told(done.day, done.pain, done.note).stops


def hurt_words(done: PerformedSet) -> str:
    """“knee 6 of 10”, and an alarm sign as she wrote it; empty where nothing hurt."""
    return _said([_Told(done.day, done.pain, done.note)])


def _settled(alarms: list[_Told], said: Mapping[str, list[_Statement]]) -> bool:
    """Whether every joint named then was reported at 5 or less on a later day."""
    joints = {joint for one in alarms for joint in one.pain}
    since = alarms[-1].day
    return bool(joints) and all(
        any(one.day > since and not one.stops for one in said.get(joint, ())) for joint in joints
    )


def _said(alarms: list[_Told]) -> str:
    worst: dict[str, int] = {}
    for one in alarms:
        for joint, score in one.pain.items():
            worst[joint] = max(score, worst.get(joint, 0))
    joints = (f"{joint} {score} of 10" for joint, score in sorted(worst.items()))
    return ", ".join((*joints, *_alarm_words(alarms)))


def _alarm_words(alarms: list[_Told]) -> Iterator[str]:
    """The alarm sign as she chose or wrote it, once."""
    notes = [one.note for one in alarms if alarming_joint_words(one.note)]
    if notes:
        yield ALARM if ALARM in notes[-1] else alarming_joint_words(notes[-1])[0]


def without_held(book: Book, planned: PlannedDay, state: DayState) -> DayState:
    """The day without the exercises that are held, except those she took up again on it."""
    kept_out = holds(book, state.day)
    if not kept_out.joints and not kept_out.exercises:
        return state
    catalogue, taken_up = book.catalogue, _taken_up(book, state)
    found = {}
    for index, asked in enumerate(planned.exercises):
        swap = state.swaps.get(index)
        why = kept_out.on(swap.exercise if swap else asked.exercise, catalogue)
        if why is not None and index not in taken_up:
            found[index] = why.words
    return replace(state, held=found, skipped=state.skipped | found.keys())


def _taken_up(book: Book, state: DayState) -> frozenset[int]:
    """Stops she took up again on this day although they were left out."""
    decisions = book.ledger.entries("decision", since=state.day, until=state.day)
    return frozenset(
        int(entry.body["stop"])
        for entry in decisions
        if entry.body.get("what") == "take up" and entry.body.get("weekday") == state.weekday
    )


def held_words(book: Book, day: date) -> tuple[str, ...]:
    """What is left out of a day and after it, a line each thing she said."""
    held, names = holds(book, day), book.catalogue.exercises
    joints = (
        f"What loads the {joint} is left out: {why.words}." for joint, why in held.joints.items()
    )
    exercises = (
        f"{names[one].name if one in names else one} is left out: {why.words}."
        for one, why in held.exercises.items()
    )
    return (*joints, *exercises)
