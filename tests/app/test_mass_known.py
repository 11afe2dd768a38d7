"""Her body mass, told with some sets of a log, holds for those after them."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

from pennate.app.book import Book
from pennate.core.performed import Effort, PerformedSet
from pennate.core.quantities import Unit
from pennate.estimate import Exposure, fit
from pennate.ledger.sets import set_entry


def _chin_ups(book: Book, days: int) -> None:
    """A session every third day; body mass is written beside the very first set alone."""
    begin = book.today - timedelta(days=3 * days)
    rows = [
        PerformedSet(
            id="",
            when=begin + timedelta(days=3 * day),
            session="a",
            number=number,
            exercise="chin_up",
            load=Fraction(5),
            unit=Unit.KG,
            reps=8,
            effort=Effort.ONE,
            body_mass_kg=Fraction(90) if (day, number) == (0, 1) else None,
        )
        for day in range(days)
        for number in (1, 2)
    ]
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng) for done in rows])


def test_a_model_that_goes_on_knows_her_body_mass(
    empty_book: Book, observed: list[Exposure]
) -> None:
    """The model of a morning, gone on with from one weeks before, is that of the whole log:
    90 kg told once are 90 kg still, not the usual body mass.
    """
    _chin_ups(empty_book, 12)
    empty_book.model_before(empty_book.today - timedelta(days=18))
    observed.clear()
    later = empty_book.model_before(empty_book.today)
    assert 0 < len(observed) < len(empty_book.history())
    whole = fit(empty_book.history(), empty_book.catalogue, empty_book.person())
    last = observed[-1]
    assert later.estimate(last).one_rep_kg == whole.estimate(last).one_rep_kg


def test_what_reads_today_knows_the_mass_told_before(empty_book: Book) -> None:
    """A set of today without body mass is felt as one on the day it was told."""
    _chin_ups(empty_book, 4)
    rows = empty_book.history().sets
    felt = {empty_book.reader_on(empty_book.today).exposure(done).felt_kg for done in rows[1:]}
    assert felt == {empty_book.reader_on(rows[0].day).exposure(rows[0]).felt_kg}
