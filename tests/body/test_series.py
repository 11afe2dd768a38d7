"""Measurements gathered: robust readings, states, pumped readings."""

from __future__ import annotations

import pytest

from pennate.body.plausible import questions
from pennate.body.series import gather, recent, robust_readings
from pennate.core.body import Site, TapeState
from pennate.core.performed import Side
from tests.body.rows import row


def test_a_slip_among_three_readings_is_left_out() -> None:
    """54.9, 55.1 and a mistyped 65.0: the mean is that of the two, and she is told."""
    series = gather([row(0, 54.9, 65.0, 55.1)])[0]
    assert series.points[0].girth_cm == pytest.approx(55.0)
    assert "65 cm" in series.notes[0]


def test_two_readings_apart_are_both_kept() -> None:
    """Of two readings nobody can tell the wrong one."""
    assert robust_readings([55.0, 60.0], Site.THIGH) == ((55.0, 60.0), [])


def test_pumped_readings_are_flagged_and_unused() -> None:
    """A tape soon after training never enters a series, and the date is named."""
    series = gather([row(0, 55), row(7, 57, state=TapeState.PUMPED), row(14, 55.1)])[0]
    assert [point.girth_cm for point in series.points] == [55, pytest.approx(55.1)]
    assert "soon after training" in series.notes[0]


def test_flexed_and_relaxed_are_not_mixed() -> None:
    """The state measured on most dates is judged; unstated rows belong to it."""
    rows = [
        row(0, 30, state=TapeState.FLEXED),
        row(0, 28),
        row(30, 28.2),
        row(60, 28.3, state=None),
    ]
    series = gather(rows)[0]
    assert series.state is TapeState.RELAXED
    assert len(series.points) == 3


def test_rows_of_one_date_join() -> None:
    """Two rows of a date are one point with all readings."""
    series = gather([row(0, 55.0, 55.2), row(0, 55.4)])[0]
    assert (len(series.points), series.points[0].readings) == (1, 3)


def test_sides_are_apart_and_in_order() -> None:
    """Left and right make two series; sites come in the order of the body."""
    rows = [row(0, 36, site=Site.CALF), row(0, 55, side=Side.RIGHT), row(0, 55)]
    assert [series.name for series in gather(rows)] == ["left thigh", "right thigh", "left calf"]


def test_a_verdict_looks_back_a_year() -> None:
    """Dates older than the window drop out, unless fewer than two remain."""
    long_ago = [row(0, 50), row(700, 55), row(760, 55.5)]
    assert len(recent(gather(long_ago)[0]).points) == 2
    assert len(recent(gather([row(0, 50), row(700, 55)])[0]).points) == 2


def test_a_girth_unlike_the_body_mass_is_asked_about() -> None:
    """A thigh of 90 cm at 60 kg is beyond everybody measured for their mass."""
    rows = [row(0, 90.0, mass=60)]
    assert "is 90 cm right" in questions(rows, gather(rows))[0]


def test_a_date_unlike_its_neighbours_is_asked_about() -> None:
    """55, 65, 55: the middle one is asked about."""
    rows = [row(0, 55.0), row(14, 65.0), row(28, 55.2)]
    assert "Before it was 55.0 cm" in questions(rows, gather(rows))[0]


def test_sides_far_apart_are_asked_about() -> None:
    """A left of 55 and a right of 65 cm is likelier a slip than a body."""
    rows = [row(0, 55.0), row(0, 65.0, side=Side.RIGHT)]
    assert "is one a slip" in questions(rows, gather(rows))[0]
