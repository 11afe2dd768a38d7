"""The weekly review in words: one source for the page, the terminal and the JSON document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass
from datetime import date, timedelta
from typing import Any

from pennate.app.at_hand import AtHand
from pennate.app.body import site_values
from pennate.app.body_today import BodyToday, Shown, body_today, cautions_on
from pennate.app.body_words import ToMeasure, to_measure, verdict_line
from pennate.app.book import Book
from pennate.app.choose import Choice
from pennate.app.week_review import FOUR_WEEKS, ExerciseNext, WeekReview, week_review
from pennate.body.verdict import SiteVerdict
from pennate.core.caution_texts import GENERAL, Caution
from pennate.core.facts import Facts
from pennate.core.percent import signed
from pennate.core.plural import plural
from pennate.estimate import Step
from pennate.estimate.steps import GIVE_HOLDS

MOST_NAMED = 5
"""Exercises whose strength moved that are named one by one; the table has the others."""
NOTHING = "Nothing that can be told from noise."
CHANGED, NEXT, GROWING, MEASURE = (
    "What changed",
    "What comes next",
    "Is it growing",
    "What to measure",
)
STEP_WORDS = {
    Step.RAISE: "raise",
    Step.HOLD: "hold",
    Step.LOWER: "lower",
    Step.EASIER: "easier",
    Step.WIDER_RANGE: "more reps first",
    Step.MORE_SETS: "a set more",
    Step.SWAP: "swap",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """One exercise: what comes next and why."""

    exercise: str
    name: str
    days: str
    step: str
    load: str
    reason: str
    trend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictRow:
    """One verdict: the girth, its word, and what stands behind the word."""

    name: str
    word: str
    words: str
    site: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekReviewWords:
    """All that the weekly review says, in the order it is said."""

    title: str
    about: str
    about_facts: Facts
    """What the counts at the head are of."""
    notices: tuple[str, ...]
    cautions: tuple[Caution, ...]
    layoff: str
    lighter: str
    changed: tuple[str, ...]
    """Never empty: where nothing changed, that is said."""
    weight: str
    joints: tuple[str, ...]
    rows: tuple[NextRow, ...]
    apart: tuple[str, ...]
    """What has no load in these rows, since its sets could be of several things."""
    verdicts: tuple[VerdictRow, ...]
    measure: tuple[ToMeasure, ...]
    questions: tuple[str, ...]
    seen: WeekReview
    """The values behind the words."""


def week_words(book: Book) -> WeekReviewWords:
    """Look back on the last seven days. Raises NoAnswerError before there is a week."""
    return _WORDS.of(book)


def words_of(seen: WeekReview, now: BodyToday) -> WeekReviewWords:
    """The review in words."""
    body = seen.body
    shows_change = bool(body.verdicts) or body.weight is not None
    return WeekReviewWords(
        title=f"Week to {seen.until:%-d %B}",
        about=_about(seen),
        about_facts=_about_facts(seen),
        notices=body.notices,
        cautions=cautions_on(now, Shown(change=shows_change)),
        layoff=seen.layoff.say if seen.layoff else "",
        lighter=seen.lighter.say if seen.lighter else "",
        changed=_changed(seen) or (NOTHING,),
        weight=body.weight or "",
        joints=tuple(one.say[0].upper() + one.say[1:] for one in body.joints),
        rows=tuple(_row(one, seen) for one in seen.exercises if one.next is not None),
        apart=seen.apart,
        verdicts=tuple(_verdict(one, seen.until) for one in body.verdicts),
        measure=to_measure(body.measure),
        questions=seen.questions,
        seen=seen,
    )


_WORDS = AtHand(lambda book: words_of(week_review(book), body_today(book)))


def _about(seen: WeekReview) -> str:
    before = f"{seen.sets_before:.0f} a week in the month before"
    return (
        f"{seen.sessions} of {plural(seen.planned, 'session')}, {plural(seen.sets, 'working set')};"
        f" {before}"
    )


def _about_facts(seen: WeekReview) -> Facts:
    month = seen.since - timedelta(weeks=FOUR_WEEKS)
    return (
        ("days", f"{seen.since:%-d %B} to {seen.until:%-d %B}, today’s sets so far among them"),
        ("sessions", "those with a working set logged, of those your week plans"),
        ("working sets", "every set logged but warm-ups; a set of each side counts as one each"),
        (
            "a week before",
            (
                f"the same from {month:%-d %B} to {seen.since - timedelta(days=1):%-d %B},"
                f" {seen.sets_month} in all, by {FOUR_WEEKS}; days without a session count too"
            ),
        ),
        ("source", "your log, as it stands"),
    )


def _changed(seen: WeekReview) -> tuple[str, ...]:
    """Verdicts with another word than a week ago, and strength that clearly moves."""
    clear = sorted((one for one in seen.exercises if one.clear), key=lambda one: -abs(one.month))
    strength = [
        f"{one.name}: strength {signed(100 * one.month)} % in four weeks"
        f" (± {100 * one.month_give:.1f} %, {GIVE_HOLDS})."
        for one in clear[:MOST_NAMED]
    ]
    if (others := len(clear) - MOST_NAMED) > 0:
        strength.append(f"{plural(others, 'other exercise')} moved as clearly; see below.")
    stalled = [f"{one.name}: {one.halt}." for one in seen.exercises if one.halt]
    return (*seen.body.changed, *strength, *stalled)


def _row(one: ExerciseNext, seen: WeekReview) -> NextRow:
    found = one.next
    reason = found.reason if found else ""
    if seen.layoff is not None and seen.layoff.sets < 1:  # said once, above
        reason = reason.removesuffix(f"; {Choice.BACK}")
    return NextRow(
        exercise=one.exercise,
        name=one.name,
        days=", ".join(day[:3] for day in one.days),
        step=STEP_WORDS[found.step] if found else "",
        load=one.load,
        reason=reason[:1].upper() + reason[1:],
        trend="" if one.rested else f"{signed(100 * one.month)} ± {100 * one.month_give:.1f} %",
    )


def _verdict(one: SiteVerdict, today: date) -> VerdictRow:
    name = one.site.capitalize()
    return VerdictRow(
        name=f"{name}, {one.side.value}" if one.side else name,
        word=one.verdict.value,
        words=verdict_line(one, today),
        site=one.site,
    )


def week_review_lines(words: WeekReviewWords) -> Iterator[str]:
    """The review for a terminal."""
    yield words.title
    yield words.about
    yield from words.notices
    yield from (caution.text for caution in words.cautions)
    said = (words.layoff, words.lighter, *words.changed, words.weight, *words.joints)
    yield from _part(CHANGED, filter(None, said))
    yield from _part(NEXT, (*map(_next_line, words.rows), *words.apart))
    yield from _part(GROWING, (f"{one.name}: {one.word}, {one.words}" for one in words.verdicts))
    asked = (f"{one.name}: {one.when}. {one.say}" for one in words.measure)
    yield from _part(MEASURE, (*asked, *words.questions))
    yield ""
    yield GENERAL.text


def _part(heading: str, lines: Iterable[str]) -> Iterator[str]:
    told = tuple(lines)
    if told:
        yield ""
        yield heading
        yield from (f"  {line}" for line in told)


def _next_line(row: NextRow) -> str:
    load = f", {row.load}" if row.load else ""
    trend = f". Four weeks: {row.trend}" if row.trend else "."
    return f"{row.name} ({row.days}): {row.step}{load}. {row.reason}{trend}"


def week_review_document(words: WeekReviewWords) -> dict[str, Any]:
    """The review as JSON values: the numbers, and the same words as everywhere."""
    seen = words.seen
    return {
        "title": words.title,
        "from": seen.since.isoformat(),
        "to": seen.until.isoformat(),
        "about": words.about,
        "sessions": seen.sessions,
        "planned": seen.planned,
        "sets": seen.sets,
        "sets_before": seen.sets_before,
        "notices": words.notices,
        "cautions": [{"id": one.id, "text": one.text} for one in (*words.cautions, GENERAL)],
        "layoff": words.layoff,
        "lighter": words.lighter,
        "changed": words.changed,
        "weight": words.weight,
        "joints": words.joints,
        "next": [_next_values(one, seen) for one in seen.exercises if one.next is not None],
        "apart": words.apart,
        "verdicts": [
            {**site_values(one), "word": row.word, "words": row.words, "name": row.name}
            for one, row in zip(seen.body.verdicts, words.verdicts, strict=True)
        ],
        "measure": [asdict(one) for one in words.measure],
        "questions": words.questions,
    }


def _next_values(one: ExerciseNext, seen: WeekReview) -> dict[str, Any]:
    return {
        **asdict(_row(one, seen)),
        "days": one.days,
        "month": one.month,
        "month_give": one.month_give,
        "stalled": one.halt,
        "sets": one.sets,
    }
