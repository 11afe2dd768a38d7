"""The session line and its braids."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET  # our own drawings only

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.performed import SetKind
from pennate.sheets.line import WIDTH, Standing, Stop, Stroke, stop_svg

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def _drawn(stop: Stop) -> ET.Element:
    return ET.fromstring(stop_svg(stop).replace("<svg ", f'<svg xmlns="{SVG[1:-1]}" ', 1))  # noqa: S314 # our own drawing


def _circles(stop: Stop) -> int:
    return sum(c.get("class") != "dot" for c in _drawn(stop).findall(f"{SVG}circle"))


def test_a_stroke_a_set() -> None:
    """Every set of a stop is one stroke, and the line itself is one more path."""
    kinds = (SetKind.WARM_UP, SetKind.TOP, SetKind.BACK_OFF, SetKind.DROP, SetKind.DROP)
    stop = Stop((tuple(Stroke(kind) for kind in kinds),))
    assert len(_drawn(stop).findall(f"{SVG}path")) == len(kinds) + 1


def test_a_superset_has_a_place_for_every_round_of_every_partner() -> None:
    """Three rounds of two exercises are six places on two strands, and the joint."""
    strand = (Stroke(SetKind.WORKING),) * 3
    assert _circles(Stop((strand, strand))) == 2 * 3 + 1


def test_strands_cross_once_a_round() -> None:
    """Between two rounds the partners change sides, so the braid shows the rounds."""
    strand = (Stroke(SetKind.WORKING),) * 3
    nodes = [c for c in _drawn(Stop((strand, strand))).findall(f"{SVG}circle") if c.get("r") == "6"]
    first = [float(node.get("cx", "")) for node in nodes[:3]]
    second = [float(node.get("cx", "")) for node in nodes[3:]]
    assert first[0] == first[2] == second[1]
    assert second[0] == second[2] == first[1]


def test_how_far_a_set_has_come_is_the_class_of_its_stroke() -> None:
    """Each stroke says its own standing, so that a page can move the drawing on by words alone."""
    strand = (Stroke(SetKind.WARM_UP, Standing.DONE), Stroke(SetKind.TOP, "{0.1.1}"))
    paths = _drawn(Stop((strand,), Standing.NOW)).findall(f"{SVG}path")
    assert [path.get("class") for path in paths] == ["now way", "done", "{0.1.1}"]


@pytest.mark.parametrize("partners", [1, 2, 3, 4])
@given(data=st.data())
def test_no_drawing_leaves_its_frame(partners: int, data: st.DataObject) -> None:
    """Nothing is cut off, for any mix of up to ten sets and four partners."""
    kinds = st.sampled_from(list(SetKind))
    strands = tuple(
        tuple(Stroke(kind) for kind in data.draw(st.lists(kinds, min_size=1, max_size=10)))
        for _ in range(partners)
    )
    root = _drawn(Stop(strands))
    height = float(root.get("height", ""))
    for circle in root.findall(f"{SVG}circle"):
        x, y, r = (float(circle.get(name, "")) for name in ("cx", "cy", "r"))
        assert x - r >= 0
        assert x + r <= WIDTH
        assert y - r >= 0
        assert y + r <= height + 1
