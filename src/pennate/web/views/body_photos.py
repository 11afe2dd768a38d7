"""Photos side by side at equal scale, drawn so that body and frame stand alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pennate.app.photos import Photo, Pose

BODY_UNITS = 800
"""Height of the body in the drawing where head and floor are marked; of the frame otherwise."""
MARGIN_UNITS = 60
WIDTH_UNITS = 620


@dataclass(frozen=True, slots=True)
class Placed:
    """A photo laid into a drawing of fixed size: where its image stands, in units."""

    id: str
    title: str
    about: str
    x: float
    y: float
    width: float
    height: float
    marked: bool
    there: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotosPage:
    """The page Photos."""

    poses: tuple[tuple[str, int], ...]
    pose: str
    pair: tuple[Placed, ...]
    view_box: str
    top: int
    floor: int
    width: int
    equal: str
    """What the scale rests on, in a sentence."""
    choices: tuple[tuple[str, str], ...]
    first: str
    second: str
    every: tuple[tuple[str, str, str, str], ...]
    """Id, day, pose, and what she said of it, newest first."""
    all_poses: tuple[str, ...]
    today: str
    light: str
    unlike: str
    removed: tuple[tuple[str, str], ...]
    """Id and title of the photos that can be put back today."""


def photos_page(
    every: Sequence[Photo],
    today: str,
    pose: str = "",
    pair: tuple[str, str] = ("", ""),
    *,
    removed: Sequence[Photo] = (),
) -> PhotosPage:
    """The page of a pose, its first and latest photo beside each other unless others are chosen."""
    counts = {p.value: sum(1 for one in every if one.pose is p) for p in Pose}
    shown = pose if counts.get(pose) else max(counts, key=lambda name: counts[name])
    alike = [one for one in every if one.pose.value == shown]
    first, second = _chosen(alike, pair)
    two = [one for one in (first, second) if one is not None]
    marked = bool(two) and all(one.top is not None for one in two)
    return PhotosPage(
        poses=tuple((name, count) for name, count in counts.items() if count),
        pose=shown,
        pair=tuple(placed(one, by_marks=marked) for one in two),
        view_box=f"0 0 {WIDTH_UNITS} {BODY_UNITS + 2 * MARGIN_UNITS}",
        top=MARGIN_UNITS,
        floor=MARGIN_UNITS + BODY_UNITS,
        width=WIDTH_UNITS,
        equal=_equal(marked=marked, count=len(two)),
        choices=tuple((one.id, f"{one.day:%-d %b %Y}") for one in alike),
        first=first.id if first else "",
        second=second.id if second else "",
        every=tuple(_listed(one) for one in reversed(every)),
        all_poses=tuple(Pose),
        today=today,
        light=every[-1].light if every else "",
        unlike=_unlike(two),
        removed=tuple((one.id, _title(one)) for one in removed),
    )


def _chosen(alike: Sequence[Photo], pair: tuple[str, str]) -> tuple[Photo | None, Photo | None]:
    by_id = {one.id: one for one in alike}
    first = by_id.get(pair[0]) or (alike[0] if alike else None)
    second = by_id.get(pair[1]) or (alike[-1] if len(alike) > 1 else None)
    return first, second


def placed(one: Photo, *, by_marks: bool) -> Placed:
    """Lay a photo into the drawing: head and floor on the two lines, or the frame between them."""
    top = float(one.top) if by_marks and one.top is not None else 0.0
    floor = float(one.floor) if by_marks and one.floor is not None else 1.0
    height = BODY_UNITS / (floor - top)
    width = height * one.picture.width / one.picture.height
    return Placed(
        id=one.id,
        title=_title(one),
        about=", ".join(part for part in (one.light, one.note) if part),
        x=round((WIDTH_UNITS - width) / 2, 1),
        y=round(MARGIN_UNITS - top * height, 1),
        width=round(width, 1),
        height=round(height, 1),
        marked=one.top is not None,
        there=one.there,
    )


def _title(one: Photo) -> str:
    return f"{one.day:%-d %B %Y}, {one.pose.value}"


def _equal(*, marked: bool, count: int) -> str:
    if count < 2:
        return ""
    if marked:
        return "Equal scale: head and floor of both lie on the two lines."
    return (
        "Equal height of the frame. Mark head and floor on each, and both are drawn at the same"
        " scale even from another distance."
    )


def _unlike(two: Sequence[Photo]) -> str:
    if len(two) == 2 and two[0].light.casefold() != two[1].light.casefold():
        return "The light is not the same: shadows can pass for muscle."
    return ""


def _listed(one: Photo) -> tuple[str, str, str, str]:
    said = ", ".join(part for part in (one.light, one.note) if part)
    away = "" if one.there else "the file is not on this machine"
    return one.id, f"{one.day:%-d %B %Y}", one.pose.value, " · ".join(p for p in (said, away) if p)


@dataclass(frozen=True, slots=True)
class PhotoPage:
    """One photo with a ruler, to mark head and floor by."""

    id: str
    title: str
    about: str
    view_box: str
    width: int
    height: int
    rules: tuple[tuple[int, str], ...]
    """Height in the drawing and per cent of every ruled line."""
    top: str
    floor: str
    there: bool


RULER_UNITS = 1000


def photo_page(one: Photo, typed: tuple[str, str] | None = None) -> PhotoPage:
    """The page of one photo."""
    width = round(RULER_UNITS * one.picture.width / one.picture.height)
    marks = (one.top, one.floor)
    top, floor = typed or ["" if m is None else f"{float(100 * m):g}" for m in marks]
    return PhotoPage(
        id=one.id,
        title=_title(one),
        about=", ".join(part for part in (one.light, one.note) if part),
        view_box=f"0 0 {width} {RULER_UNITS}",
        width=width,
        height=RULER_UNITS,
        rules=tuple((RULER_UNITS * share // 100, str(share)) for share in range(5, 100, 5)),
        top=top,
        floor=floor,
        there=one.there,
    )
