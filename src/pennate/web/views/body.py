"""The page Body: the verdict for each place of the tape, in words that open."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from pennate.app.body_pages import weight_sentence
from pennate.app.body_today import BodyToday, Shown, cautions_on
from pennate.app.body_words import VERDICT_RULE, ToMeasure, to_measure, verdict_line
from pennate.body.next_reading import FURTHEST, LIKELY
from pennate.body.series import Point, Series
from pennate.body.sides import SideDifference
from pennate.body.verdict import SiteVerdict, Verdict
from pennate.core.body import LANDMARKS, SITE_PARTS, TRUNK, Site
from pennate.core.cautions import Caution
from pennate.core.evidence.body import SAME_BAND
from pennate.core.facts import Facts
from pennate.core.muscles import GROUP_SHARES
from pennate.core.percent import chance, percent, signed, signed_span
from pennate.core.performed import Side
from pennate.core.plural import plural


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictWords:
    """One verdict: its line, and what stands behind it."""

    side: str
    word: str
    words: str
    facts: Facts
    settle: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteRow:
    """One place of the tape with its sides."""

    site: str
    name: str
    muscles: str
    verdicts: tuple[VerdictWords, ...]
    waiting: tuple[str, ...]
    apart: str
    """Left against right, in words; empty on the trunk."""
    apart_facts: Facts


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyView:
    """The page Body."""

    sites: tuple[SiteRow, ...]
    measure: tuple[ToMeasure, ...]
    questions: tuple[str, ...]
    lines: tuple[tuple[str, str, str], ...]
    """Address, name and what stands there in a line, of the other pages of the body."""
    notices: tuple[str, ...]
    cautions: tuple[Caution, ...]
    first_site: str


def body_view(now: BodyToday) -> BodyView:
    """Everything the page shows."""
    page = now.page
    sites = site_rows(now)
    measure = to_measure(page.measure_next)
    return BodyView(
        sites=sites,
        measure=measure,
        questions=page.growth.questions,
        lines=_lines(now),
        notices=page.notices,
        cautions=cautions_on(now, Shown(change=bool(sites) or page.weight is not None)),
        first_site=measure[0].site if measure else Site.UPPER_ARM.value,
    )


def site_rows(now: BodyToday) -> tuple[SiteRow, ...]:
    """The places measured, in the order of the body."""
    growth, points = now.page.growth, _points(now.series)
    verdicts: dict[str, list[VerdictWords]] = {}
    for one in growth.sites:
        series = points[one.site, one.side.value if one.side else None]
        verdicts.setdefault(one.site, []).append(verdict_words(one, series, now.today))
    waiting: dict[str, list[str]] = {}
    for once in growth.waiting:
        words = f"{once.girth_cm:.1f} cm on {once.day:%-d %B}; a second date will tell"
        waiting.setdefault(once.site, []).append(f"{once.side}: {words}" if once.side else words)
    apart = {one.site: one for one in growth.left_right}
    return tuple(
        SiteRow(
            site=site.value,
            name=site.value.capitalize(),
            muscles=muscles_at(site),
            verdicts=tuple(verdicts.get(site.value, ())),
            waiting=tuple(waiting.get(site.value, ())),
            apart=_apart(apart.get(site.value)),
            apart_facts=_apart_facts(apart.get(site.value)),
        )
        for site in Site
        if site.value in verdicts or site.value in waiting
    )


def _points(all_series: Iterable[Series]) -> Mapping[tuple[str, str | None], Sequence[Point]]:
    return {
        (one.site.value, one.side.value if one.side else None): one.points for one in all_series
    }


def muscles_at(site: Site) -> str:
    """The muscle groups a tape goes round there, in gym words."""
    parts = SITE_PARTS[site]
    return ", ".join(group.value for group, own in GROUP_SHARES.items() if parts & set(own))


def verdict_words(one: SiteVerdict, points: Sequence[Point], today: date) -> VerdictWords:
    """A verdict as a line that opens."""
    used = [point for point in points if one.start <= point.day <= one.end]
    return VerdictWords(
        side=one.side.value if one.side else "",
        word=one.verdict.value,
        words=verdict_line(one, today),
        facts=_facts(one, used),
        settle=one.next_reading.say if one.verdict is Verdict.OPEN else "",
    )


DATE_RULE = (
    "the first by which the lightest of three or five readings, once or twice a week, settles it"
    f" with a chance of {percent(LIKELY)} or more, by your own error; {FURTHEST} weeks are looked"
    " ahead"
)


def _facts(one: SiteVerdict, used: Sequence[Point]) -> Facts:
    readings = sum(point.readings for point in used)
    span = f"{one.start:%-d %B %Y} to {one.end:%-d %B %Y}"
    lean = one.lean_area
    area = ""
    if lean is not None:
        area = f"{signed(lean.thickness_held)} cm² of {lean.before:.0f} cm²"
        if abs(lean.thickness_held - lean.area_held) > 0.05:
            area += f" if the fat kept its thickness, {signed(lean.area_held)} if its area"
    return (
        (
            "change",
            f"{signed(one.change_cm)} cm, {signed_span(one.low95, one.high95)} (95 %)",
        ),
        (
            "chances",
            (
                f"{chance(one.p_more)} larger, {chance(one.p_same)} the same,"
                f" {chance(one.p_less)} smaller, by over {SAME_BAND:g} %"
            ),
        ),
        ("could tell", f"a change of {one.detectable_cm:.1f} cm or more"),
        (
            "rests on",
            f"{plural(readings, 'reading')} on {plural(one.dates, 'date')}, {span}"
            + (f", {one.state}" if one.state else ""),
        ),
        (
            "your error",
            (f"± {one.typical_error_cm:.2f} cm a reading: published error, then your own repeats"),
        ),
        ("freed of fat by", f"{one.correction}: {one.correction_note}"),
        ("muscle area", area),
        *(("beside it", f"{item.say} (moves the chances only)") for item in one.support),
        ("rule", VERDICT_RULE),
        ("left out", "; ".join(one.notes)),
        ("next reading", one.next_reading.say),
        *((("its date", DATE_RULE),) if one.verdict is Verdict.OPEN else ()),
        ("source", "your tape; constants and sources: pennate evidence body"),
    )


def _apart(one: SideDifference | None) -> str:
    if one is None:
        return ""
    words = one.say.partition(": ")[2]
    return f"{words[0].upper()}{words[1:]}"


def _apart_facts(one: SideDifference | None) -> Facts:
    if one is None:
        return ()
    low, high = signed(one.low95), signed(one.high95)
    change = ""
    if one.change_cm is not None and one.change_low95 is not None:
        change = (
            f"{signed(one.change_cm)} cm since the first common date"
            f" ({signed(one.change_low95)} to {signed(one.change_high95 or 0.0)})"
        )
    return (
        ("right less left", f"{signed(one.difference_cm)} cm, {low} to {high} (95 %)"),
        ("when", f"{one.day:%-d %B %Y}"),
        ("changed by", change),
        ("rule", "reading and day error of both sides; a day both share is not counted on"),
    )


def _lines(now: BodyToday) -> tuple[tuple[str, str, str], ...]:
    weight = "hidden, as you asked" if now.choices.hide_weight else "nothing weighed yet"
    if now.page.weight is not None:
        trend = now.page.weight.trend
        weight = f"{trend.trend_kg:.1f} kg. {weight_sentence(trend, now.today)}"
    return (
        ("/body/weight", "Weight", weight),
        ("/body/food", "Food", _food(now)),
        ("/body/recovery", "Recovery", _recovery(now)),
        ("/body/photos", "Photos", "kept on this machine, side by side at equal scale"),
        ("/body/cycle", "Cycle", "on, private" if now.choices.cycle else "off"),
        ("/body/translate", "What a girth means", "girth, area and volume, one from another"),
    )


def _food(now: BodyToday) -> str:
    protein = now.food.protein
    if protein is None or now.choices.hide_weight:
        return "protein, maintenance, guards; all optional"
    return f"protein {protein.low:.0f} to {protein.high:.0f} g a day"


def _recovery(now: BodyToday) -> str:
    if now.page.joints:
        say = now.page.joints[0].say
        return f"{say[0].upper()}{say[1:]}"
    return "sleep, joints, days off"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One side's boxes on the form of girths."""

    side: str
    label: str
    values: tuple[str, ...]
    fold: str
    last: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GirthForm:
    """The form for one place of the tape."""

    site: str
    name: str
    landmark: str
    muscles: str
    day: str
    today: str
    state: str
    boxes: tuple[Box, ...]
    sites: tuple[tuple[str, str], ...]
    trained: str
    """Said where she trained not long ago, so that the reading would be a pumped one."""
    next_site: str
    saved: tuple[tuple[str, str, str], ...]
    """Noted for that day already: id, name, readings."""
    more: bool


READINGS = 3


def boxes_for(now: BodyToday, site: Site, typed: Mapping[str, Sequence[str]]) -> tuple[Box, ...]:
    """The boxes of a place, with what was typed and the last reading beside."""
    last = {one.side: one.points[-1] for one in now.series if one.site is site}
    sides: tuple[Side | None, ...] = (None,) if site in TRUNK else (Side.LEFT, Side.RIGHT)
    found = []
    for side in sides:
        name = side.value if side else "once"
        values = tuple(typed.get(name, ()))
        point = last.get(side)
        found.append(
            Box(
                side=name,
                label=side.value.capitalize() if side else site.value.capitalize(),
                values=values + ("",) * max(0, READINGS - len(values)),
                fold=next(iter(typed.get(f"{name}_fold", ())), ""),
                last=f"last {point.girth_cm:.1f} cm, {point.day:%-d %b}" if point else "",
            )
        )
    return tuple(found)


def landmark_words(site: Site) -> str:
    """Where the tape goes, as a sentence."""
    text = LANDMARKS[site]
    return f"{text[0].upper()}{text[1:]}."
