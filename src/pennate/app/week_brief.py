"""The short brief of the Week page: filled in from what is known, and read back as a `Brief`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import timedelta
from fractions import Fraction

from pennate.app.book import Book
from pennate.app.gyms import STARTER_ORDER
from pennate.app.pain_holds import Holds, holds
from pennate.app.week_asked import FEWEST_MIN, MOST_MIN, minutes_now
from pennate.app.week_log import pace_of
from pennate.core.brief import Brief, FreeDay, JointLimit
from pennate.core.exercise import Catalogue
from pennate.core.muscles import PART_NAMES, Group, Joint, Part
from pennate.core.near import did_you_mean
from pennate.core.prescribed import WEEKDAYS, Preferences, Span, Week
from pennate.core.quantities import format_number, parse_number
from pennate.core.week_names import known_exercise
from pennate.errors import InputError, Where
from pennate.files.brief import LONE_PARTS

BRIEF = "brief"
"""Kind of the entry that keeps what she last asked for."""
USUAL_MIN = 60  # number: common practice
"""Minutes of a day of which nothing is known."""
PLACES = ("first", "second", "third")
"""Priorities the form asks for."""
RESERVES: Mapping[str, Span | None] = {
    "": None,
    "fail": Span(0, 0),
    "0-1": Span(0, 1),
    "1-2": Span(1, 2),
    "2-3": Span(2, 3),
}
"""Where she usually stops, as the form offers it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """The brief as its form shows it: texts as typed, by name of the field."""

    days: Mapping[str, str]
    """Minutes by weekday; empty where she cannot train."""
    sessions: str = ""
    gym: str = ""
    priorities: tuple[str, ...] = ()
    targets: Mapping[str, str] = field(default_factory=dict)
    joints: Mapping[str, str] = field(default_factory=dict)
    liked: str = ""
    barred: str = ""
    required: str = ""
    years: str = ""
    reserve: str = ""
    supersets: bool = True
    most_exercises: str = ""
    near: bool = True
    """Whether staying near the current week is worth something."""


def known_wishes(book: Book) -> Wishes:
    """What she asked for last; before that, what her week, her gym and her log say."""
    entry, week, gym = book.latest(BRIEF), book.week(), book.gym()
    if entry is not None:
        wishes = _stored(entry.body)
        wishes = replace(wishes, days={**_present_minutes(book), **wishes.days})
    else:
        wishes = from_week(week, gym.id if gym else "", trained=book.profile().trained, book=book)
    return _without_held(book, wishes)


def _held(book: Book) -> Holds:
    """What a plan from tomorrow on goes without: the sets of today count."""
    return holds(book, book.today + timedelta(days=1))


def _without_held(book: Book, wishes: Wishes) -> Wishes:
    """Joints and exercises that alarming pain keeps out, until she says that it has settled."""
    held, names = _held(book), book.catalogue.exercises
    barred = _listed(wishes.barred)
    known = {one.casefold() for one in barred}
    barred += [
        names[one].name
        for one in held.exercises
        if one in names and not known & {one, names[one].name.casefold()}
    ]
    joints = {**wishes.joints, **dict.fromkeys(held.joints, JointLimit.NONE.value)}
    return replace(wishes, joints=joints, barred=", ".join(barred))


def from_week(week: Week | None, gym: str, *, trained: bool | None, book: Book) -> Wishes:
    """The wishes that a week already holds."""
    wanted = week.preferences if week else Preferences()
    names = book.catalogue.exercises
    return Wishes(
        days=_present_minutes(book),
        gym=gym,
        priorities=tuple(group.value for group in week.priorities) if week else (),
        targets={g.value: span_words(span) for g, span in week.targets.items()} if week else {},
        joints=_sore(book),
        liked=", ".join(names[one].name for one in wanted.liked if one in names),
        barred=", ".join(names[one].name for one in wanted.barred if one in names),
        required=", ".join(names[one].name for one in wanted.required if one in names),
        years="3" if trained else "0.5" if trained is False else "",
    )


def _present_minutes(book: Book) -> dict[str, str]:
    """Minutes of each day of her week as it is now; empty where it has none.

    A week that asks for nothing yet has its days all the same.
    """
    week = book.week()
    now = minutes_now(week, book.catalogue, pace_of(book)) if week else {}
    if week and not now:
        now = {day.day: day.minutes or USUAL_MIN for day in week.days}
    return {day: str(now.get(day, "")) for day in WEEKDAYS}


def _sore(book: Book) -> dict[str, str]:
    """Joints she named at today's check-in, with the limit the pain rule sets."""
    from pennate.app.day import readiness_of
    from pennate.app.swaps import joint_limits

    entries = book.ledger.entries("readiness", since=book.today, until=book.today)
    if not entries:
        return {}
    limits = joint_limits(readiness_of(book.today, entries[-1].body))
    words = tuple(JointLimit)
    return {joint.value: words[limit].value for joint, limit in limits.items()}


def span_words(span: Span) -> str:
    """A range as the form and the files write it: 10-16, 12+."""
    if span.high is None:
        return f"{span.low}+"
    return str(span.low) if span.low == span.high else f"{span.low}-{span.high}"


def _stored(body: Mapping[str, object]) -> Wishes:
    kept = {key: value for key, value in body.items() if key in Wishes.__dataclass_fields__}
    kept["priorities"] = tuple(kept.get("priorities") or ())  # type: ignore[arg-type] # JSON list
    return Wishes(**kept)  # type: ignore[arg-type] # as it was stored


def keep_wishes(book: Book, wishes: Wishes) -> None:
    """Remember what she asked for, so that the form is filled in next time.

    What pain keeps out is not remembered as a wish: it ends when she says that it has settled.
    Nor are minutes that stood there from her week: they follow it.
    """
    wishes, present = _her_own(book, wishes), _present_minutes(book)
    body = {name: getattr(wishes, name) for name in Wishes.__dataclass_fields__}
    body["priorities"] = list(wishes.priorities)
    body["days"] = {day: text for day, text in wishes.days.items() if text != present.get(day)}
    body["targets"] = dict(wishes.targets)
    body["joints"] = dict(wishes.joints)
    book.put(BRIEF, book.today, body)


def _her_own(book: Book, wishes: Wishes) -> Wishes:
    """The wishes without what pain alone put into the form."""
    held, names, before = _held(book), book.catalogue.exercises, book.latest(BRIEF)
    was = _stored(before.body) if before else Wishes(days={})
    put_in = {names[one].name for one in held.exercises if one in names} - set(_listed(was.barred))
    joints = {
        joint: limit
        for joint, limit in wishes.joints.items()
        if joint not in held.joints or limit != JointLimit.NONE or was.joints.get(joint) == limit
    }
    barred = ", ".join(one for one in _listed(wishes.barred) if one not in put_in)
    return replace(wishes, joints=joints, barred=barred)


def _listed(text: str) -> list[str]:
    return [one for part in text.replace("\n", ",").split(",") if (one := part.strip())]


def brief_of(wishes: Wishes, catalogue: Catalogue, gyms: Sequence[str]) -> Brief:
    """The planner's brief; raises InputError naming the field, the slip and the remedy."""
    days = tuple(
        FreeDay(day, _minutes(day, text)) for day in WEEKDAYS if (text := wishes.days.get(day, ""))
    )
    if not days:
        raise InputError("no day is chosen", Where(field="Days"), "give one day its minutes")
    if wishes.gym and wishes.gym not in (*gyms, *STARTER_ORDER):
        raise InputError(f"“{wishes.gym[:30]}” is no gym here", Where(field="Where"), "choose one")
    return Brief(
        name="Planned week",
        days=days,
        sessions=_whole(wishes.sessions, "Sessions", 1, 7),
        gym=wishes.gym,
        priorities=_priorities(wishes.priorities),
        targets={Group(g): _range(g, text) for g, text in wishes.targets.items() if text.strip()},
        preferences=Preferences(
            liked=_named(wishes.liked, "You like", catalogue),
            barred=_named(wishes.barred, "Leave out", catalogue),
            required=_named(wishes.required, "Must be in", catalogue),
        ),
        joint_limits={
            Joint(joint): _limit(joint, text) for joint, text in wishes.joints.items() if text
        },
        years=_years(wishes.years),
        reserve=_reserve(wishes.reserve),
        supersets=wishes.supersets,
        most_exercises=_whole(wishes.most_exercises, "Exercises a day", 1, 30),
        near=wishes.near,
    )


def _minutes(day: str, text: str) -> int:
    if not text.strip().isdigit() or not FEWEST_MIN <= int(text) <= MOST_MIN:
        remedy = f"write minutes like 60, from {FEWEST_MIN} to {MOST_MIN}"
        raise InputError(f"“{text[:20]}” is not a session on {day}", Where(field="Days"), remedy)
    return int(text)


def _whole(text: str, name: str, least: int, most: int) -> int | None:
    if not text.strip():
        return None
    if not text.strip().isdigit() or not least <= int(text) <= most:
        remedy = f"a whole number from {least} to {most}, or nothing"
        raise InputError(f"“{text[:20]}” is not a count", Where(field=name), remedy)
    return int(text)


def priority_words() -> dict[str, Group | Part]:
    """Everything that can be put first, in gym words."""
    lone = {PART_NAMES[part]: part for part in LONE_PARTS}
    return {**{group.value: group for group in Group}, **lone}


def _priorities(chosen: Sequence[str]) -> tuple[Group | Part, ...]:
    known = priority_words()
    found: dict[Group | Part, None] = {}
    for text in filter(None, chosen):
        if text not in known:
            remedy = did_you_mean(text, tuple(known), "choose one from the list")
            raise InputError(f"“{text[:30]}” is no muscle", Where(field="First"), remedy)
        found[known[text]] = None
    return tuple(found)


def _range(group: str, text: str) -> Span:
    low, _, high = text.replace("–", "-").partition("-")
    low, open_end = low.strip().removesuffix("+"), low.strip().endswith("+")
    high = high.strip() or ("" if open_end else low)
    wrong = not low.isdigit() or (high and not high.isdigit())
    if wrong or int(low) > 60 or (high and not int(low) <= int(high) <= 60):
        remedy = "write it like 10-16 or 12+, at most 60"
        raise InputError(f"“{text[:20]}” is no range of sets", Where(field=group), remedy)
    return Span(int(low), int(high) if high else None)


def _limit(joint: str, text: str) -> JointLimit:
    if text not in set(JointLimit):
        raise InputError(f"“{text[:20]}” is no limit", Where(field=joint), "choose one")
    return JointLimit(text)


def _named(text: str, name: str, catalogue: Catalogue) -> dict[str, str]:
    found: dict[str, str] = {}
    for one in _listed(text):
        try:
            found[known_exercise(one, catalogue).id] = ""
        except InputError as error:
            raise InputError(error.what, Where(field=name), error.remedy) from None
    return found


def _years(text: str) -> Fraction | None:
    if not text.strip():
        return None
    years = parse_number(text)
    if not 0 <= years <= 80:
        remedy = "write it like 3 or 4.5"
        raise InputError(f"{format_number(years)} years of training", Where(field="Years"), remedy)
    return years


def _reserve(text: str) -> Span | None:
    if text not in RESERVES:
        raise InputError(f"“{text[:20]}” is no reserve", Where(field="You stop"), "choose one")
    return RESERVES[text]
