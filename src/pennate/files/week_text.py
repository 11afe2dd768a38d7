"""A `Week` as canonical TOML: keys in the order of reading, one line a group of sets."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LadderStep,
    LoadRule,
    PlannedDay,
    Preparation,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.files.own_exercise import OwnExercise
from pennate.files.toml_text import Pairs, Value, inline, pair_lines
from pennate.files.words import load_text, rest_text, span_text


def render_week(week: Week) -> str:
    """The week file of a week; reading it gives the week again."""
    blocks = [
        pair_lines(_head(week)),
        *_named("targets", {str(g): span_text(s) for g, s in week.targets.items()}),
        *_named("liked", week.preferences.liked),
        *_named("barred", week.preferences.barred),
        *_named("required", week.preferences.required),
        *(["[[exercise]]", *pair_lines(OwnExercise.of(own).items())] for own in week.own_exercises),
        *(block for day in week.days for block in _day_blocks(day)),
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _named(title: str, pairs: Mapping[str, str]) -> list[list[str]]:
    return [[f"[{title}]", *pair_lines(pairs.items())]] if pairs else []


def _head(week: Week) -> Iterator[tuple[str, Value]]:
    yield "name", week.name
    if week.gym:
        yield "gym", week.gym
    if week.priorities:
        yield "priorities", [str(group) for group in week.priorities]
    if week.note:
        yield "note", week.note


def _day_blocks(day: PlannedDay) -> Iterator[list[str]]:
    yield ["[[day]]", *pair_lines(_day(day))]
    for asked in day.exercises:
        yield ["[[day.exercise]]", *pair_lines(_asked(asked))]


def _given(pairs: Iterable[tuple[str, Value | None]]) -> Pairs:
    """The pairs that say something: no None, no empty text or list."""
    return [(key, value) for key, value in pairs if value is not None and value not in ("", [])]


def _day(day: PlannedDay) -> Pairs:
    preparation: list[Value] = [inline(_preparation(item)) for item in day.preparation]
    return _given(
        [
            ("day", day.day),
            ("focus", day.focus),
            ("minutes", day.minutes),
            ("preparation", preparation),
        ]
    )


def _preparation(item: Preparation) -> Pairs:
    pairs = _given([("reps", item.reps), ("seconds", item.seconds)])
    return [("what", item.what), *pairs]


def _asked(asked: PrescribedExercise) -> Pairs:
    sets: list[Value] = [inline(_sets(one)) for one in asked.sets]
    ladder: list[Value] = [inline(_rung(one)) for one in asked.ladder]
    return _given(
        [
            ("exercise", asked.exercise),
            ("equipment", asked.equipment),
            ("variant", asked.variant),
            ("aids", list(asked.aids)),
            ("superset", asked.superset),
            ("replaces", asked.replaces),
            ("reason", asked.reason and str(asked.reason)),
            ("because", asked.because),
            ("note", asked.note),
            ("sets", sets),
            ("ladder", ladder),
        ]
    )


def _sets(sets: PrescribedSets) -> Pairs:
    return _given(
        [
            ("kind", None if sets.kind is SetKind.WORKING else str(sets.kind)),
            ("sets", None if sets.count == 1 else sets.count),
            ("reps", _span(sets.reps)),
            ("seconds", _span(sets.seconds)),
            ("reserve", "fail" if sets.to_failure else _span(sets.reserve)),
            ("load", _load(sets.load)),
            ("rest", None if sets.rest_s is None else rest_text(sets.rest_s)),
            ("style", sets.style),
            ("tempo", sets.tempo),
            ("partials", sets.partials or None),
            ("note", sets.note),
        ]
    )


def _rung(step: LadderStep) -> Pairs:
    return _given(
        [
            ("exercise", step.exercise),
            ("load", _load(step.load)),
            ("style", step.style),
            ("until", _span(step.until)),
        ]
    )


def _load(rule: LoadRule) -> str | None:
    return None if rule == LoadRule() else load_text(rule)


def _span(span: Span | None) -> str | None:
    return None if span is None else span_text(span)
