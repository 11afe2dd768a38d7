"""What the pages Body and Review are given to draw."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.body import growth
from pennate.app.body_log import TrainingLog, support_for
from pennate.app.body_pages import BodyRecord, body_page, body_review, measure_next, weight_sentence
from pennate.app.body_record import note_period, record_of
from pennate.app.body_words import to_measure, verdict_line
from pennate.app.book import Book
from pennate.body.pain import PainReport
from pennate.body.series import gather
from pennate.core.body import SITE_PARTS, Measurement, Site, Weighing
from pennate.core.dose import RESERVE_OF, CountedSet, dose_by_part, effort_credit
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import Unit
from pennate.files.catalogue import read_catalogue
from pennate.ledger.measured import girth_entries, weight_entry
from tests.body.rows import on, row

LUNGE = "split_squat"
NOW = datetime(2026, 4, 1, 12, tzinfo=UTC)


def tape(days: range, growth_a_week: float) -> tuple[Measurement, ...]:
    """Weekly readings of a left thigh, growing by so many cm a week."""
    return tuple(
        row(d, *(round(55 + growth_a_week * d / 7 + tenth, 1) for tenth in (0.1, 0, -0.1)))
        for d in days
    )


def scale(days: int) -> tuple[Weighing, ...]:
    """Daily weighings falling by 0.4 kg a week."""
    return tuple(Weighing(day=on(d), kg=Fraction(round(6500 - 5.7 * d), 100)) for d in range(days))


def sets(days: range, exercise: str) -> tuple[PerformedSet, ...]:
    """Two sets of an exercise on each day, the load rising."""
    return tuple(
        PerformedSet(
            id="",
            when=on(day),
            session="a",
            number=number,
            exercise=exercise,
            reps=10,
            load=Fraction(40 + day // 7),
            unit=Unit.KG,
            effort=Effort.ONE,
        )
        for day in days
        for number in (1, 2)
    )


RECORD = BodyRecord(
    measurements=tape(range(0, 92, 7), 0.2),
    weighings=scale(91),
    periods=(on(0), on(28), on(57), on(85)),
    pain=(PainReport(on(88), "knee", 4),),
)


def test_an_empty_record_is_an_empty_page() -> None:
    """Nothing noted, nothing drawn, nothing raised."""
    page = body_page(BodyRecord(), on(0))
    assert (page.growth.sites, page.weight, page.measure_next) == ((), None, ())


def test_the_page_has_verdicts_weight_and_joints() -> None:
    """Growing thigh, falling weight with a point a day, a knee to watch."""
    page = body_page(RECORD, on(91))
    assert page.growth.sites[0].verdict == "growing"
    assert page.weight is not None
    assert len(page.weight.points) == 91
    assert page.weight.trend.high95 < 0
    assert page.joints[0].joint == "knee"


def test_old_readings_are_not_told_as_of_now() -> None:
    """Nine weeks on, weight and girths say until when they were read; a day on, they do not."""
    for later, old in ((0, False), (63, True)):
        page = body_page(RECORD, on(91 + later))
        assert page.weight is not None
        said = weight_sentence(page.weight.trend, on(91 + later))
        assert ("until then weight was falling" in said) is old
        lines = [verdict_line(one, on(91 + later)) for one in page.growth.sites]
        assert lines
        assert all(("as read until" in line) is old for line in lines)


def test_weight_can_be_hidden() -> None:
    """Hidden weight appears nowhere on page or review."""
    assert body_page(RECORD, on(91), hide_weight=True).weight is None
    assert body_review(RECORD, on(84), on(91), hide_weight=True).weight is None


def test_the_page_knows_nothing_of_tomorrow() -> None:
    """A page on a day ignores what was noted later."""
    assert body_page(RECORD, on(45)) == body_page(RECORD.up_to(on(45)), on(45))


def test_review_says_what_changed_once() -> None:
    """The word that changed since the last review is told; next time it is not."""
    first = body_review(RECORD, on(7), on(91))
    assert any("growing" in line for line in first.changed)
    assert body_review(RECORD, on(90), on(91)).changed == ()


def test_a_girth_measured_once_is_asked_again() -> None:
    """One date: the second is asked four weeks on, with where the tape goes."""
    asked = measure_next(growth([row(0, 55.0)]), on(30))
    assert asked[0].day == on(28)
    assert asked[0].due
    assert "kneecap" in asked[0].landmark


def test_sessions_that_train_the_site_count() -> None:
    """Calf raises say nothing about holding a thigh; leg extensions do (18 sessions)."""
    rows = [row(d, 55.0, 55.1, 54.9) for d in range(0, 42, 3)]
    words = []
    for exercise in ("leg_extension", "seated_calf_raise"):
        training = TrainingLog(sets(range(0, 40, 2), exercise), read_catalogue())
        words.append(growth(rows, training).sites[0].verdict)
    assert words == ["holding", "cannot tell yet"]


def test_unlike_cycle_days_are_told() -> None:
    """First weighing on day 1, last on day 14 of a cycle: a word on water."""
    record = BodyRecord(weighings=scale(70), periods=(on(0), on(28), on(56)))
    page = body_page(record, on(70))
    assert page.weight is not None
    assert "water" in page.weight.like_day


def test_absent_periods_are_noticed_only_if_expected() -> None:
    """The clinician's notice reaches the page, and not where no periods are expected."""
    record = BodyRecord(periods=(on(0), on(28)))
    later: date = on(28) + timedelta(days=95)
    assert "clinician" in body_page(record, later).notices[0]
    silent = BodyRecord(periods=record.periods, periods_expected=False)
    assert body_page(silent, later).notices == ()


def test_the_record_comes_out_of_the_ledger(tmp_path: Path) -> None:
    """Girths, weighings and periods are found again as written."""
    book = Book.open(tmp_path, lambda: NOW, Random(1))
    measured, weighed = row(0, 55.0, 55.2), scale(1)[0]
    book.ledger.append(girth_entries(measured, now=NOW, rng=Random(2)))
    book.ledger.append([weight_entry(weighed, now=NOW, rng=Random(3))])
    note_period(book, on(3))
    record = record_of(book)
    assert record.measurements == (measured,)
    assert (record.weighings, record.periods) == ((weighed,), (on(3),))
    book.close()


def test_alike_sets_count_as_they_do_one_by_one() -> None:
    """Sets a week of the part under the tape that gets most, by the public count of each set."""
    done = [
        *sets(range(0, 84, 4), "leg_extension"),
        *(replace(one, effort=Effort.FOUR_FIVE) for one in sets(range(1, 84, 6), "leg_press")),
        *(replace(one, side=Side.LEFT, kind=SetKind.DROP) for one in sets(range(2, 84, 8), LUNGE)),
    ]
    catalogue = read_catalogue()
    each = dose_by_part(
        CountedSet(
            effort_credit(RESERVE_OF[one.effort]) if one.effort else 1.0,
            one.kind,
            catalogue[one.exercise].weights(),
            sides=0.5 if one.side else 1.0,
        )
        for one in done
    )
    series = gather([row(d, 55.0, 55.1) for d in range(0, 92, 7)])[0]
    support = support_for(series, TrainingLog(tuple(done), catalogue))
    most = max(each[part].value for part in SITE_PARTS[Site.THIGH] if part in each)
    assert support.sets_per_week == pytest.approx(most / 13)


def test_the_review_asks_for_the_sides_that_the_page_asks_for() -> None:
    """Left settled and due in a month, right open and due now: both, as on Body, not one."""
    left = tape(range(0, 92, 7), 0.2)
    right = tuple(replace(row(day, 55.0, 55.4, 54.6), side=Side.RIGHT) for day in (63, 84))
    record = BodyRecord(measurements=(*left, *right))
    page = body_page(record, on(92))
    days = {one.side: one.day for one in page.measure_next}
    assert days["left"] > on(92 + 7) > days["right"]
    review = body_review(record, on(85), on(92))
    assert to_measure(review.measure) == to_measure(page.measure_next)
    assert [one.name for one in to_measure(review.measure)] == ["Thigh, both sides"]
