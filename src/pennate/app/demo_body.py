"""The made-up lifter's body: a year of girths and weighings, the truth simulated, with error.

Muscle grows by a flattening curve and stops while she is away; fat follows her weight. What
the tape and the scale say has the published error: tape and day error a site, and for the
scale a daily scatter, slow water, a weekly rhythm. The same for the same seed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction
from random import Random

from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.evidence.body import DAY_ERROR, GIRTH_ON_MASS, READING_ERROR
from pennate.core.performed import Side
from pennate.ledger import Entry, uuid7
from pennate.ledger.measured import girth_entries, weight_entry

TAPED = {
    Site.UPPER_ARM: (28.4, 0.026, 0.3),
    Site.FOREARM: (24.1, 0.004, 0.2),
    Site.THIGH: (55.2, 0.022, 0.9),
    Site.CALF: (35.8, 0.0, 0.1),
}
"""Girth at the start in cm, share by which muscle widens it in the end, right less left."""
EVERY_DAYS = 28
READINGS = 3
START_KG = 62.4
GAIN_KG = 1.7
WEEKEND_KG = 0.18
SCATTER_KG = 0.33
WATER_KG = 0.3
WEIGHED = 0.86
"""Share of mornings she stands on the scale."""
SHORT_NIGHTS = 0.18


@dataclass(slots=True)
class DemoBody:
    """Simulates what she notes of her body up to a last day."""

    last_day: date
    weeks: int
    rng: Random

    @property
    def first_day(self) -> date:
        """The day her notes begin."""
        return self.last_day - timedelta(days=7 * self.weeks - 1)

    def mass(self, day: date) -> float:
        """Her true mass: up slowly, with a wave of a season."""
        years = (day - self.first_day).days / 365
        return START_KG + GAIN_KG * years + 0.5 * math.sin(2 * math.pi * years)

    def girth(self, site: Site, side: Side, day: date) -> float:
        """Her true girth: muscle by a flattening curve, fat with her mass."""
        start, gain, apart = TAPED[site]
        years = max(0.0, (day - self.first_day).days / 365)
        muscle = gain * (1 - math.exp(-1.1 * years)) / (1 - math.exp(-1.1))
        fat = 0.7 * GIRTH_ON_MASS[site] * math.log(self.mass(day) / START_KG)
        return start * (1 + muscle + fat) + (apart if side is Side.RIGHT else 0.0)

    def girths(self) -> Iterator[Measurement]:
        """Three readings of every site and side, once in four weeks, the last lately."""
        count = max(2, 7 * self.weeks // EVERY_DAYS)
        days = [self.last_day - timedelta(days=3 + EVERY_DAYS * n) for n in range(count)]
        for day in reversed(days):
            for site in TAPED:
                for side in Side:
                    yield self._row(day, site, side)

    def _row(self, day: date, site: Site, side: Side) -> Measurement:
        true = self.girth(site, side, day)
        there = true * (1 + self.rng.gauss(0, DAY_ERROR) / 100)
        readings = (there * (1 + self.rng.gauss(0, READING_ERROR) / 100) for _ in range(READINGS))
        return Measurement(
            day=day,
            site=site,
            side=side,
            girths_cm=tuple(Fraction(round(10 * one), 10) for one in readings),
            state=TapeState.RELAXED,
        )

    def weighings(self) -> Iterator[Weighing]:
        """Most mornings, to a tenth of a kilogram."""
        water = 0.0
        for past in range(7 * self.weeks):
            day = self.first_day + timedelta(days=past)
            water = 0.6 * water + self.rng.gauss(0, WATER_KG * 0.8)
            scatter = self.rng.gauss(0, SCATTER_KG)
            weekend = WEEKEND_KG if day.weekday() in {0, 6} else 0.0
            if self.rng.random() < WEIGHED:
                kg = self.mass(day) + water + scatter + weekend
                yield Weighing(day=day, kg=Fraction(round(10 * kg), 10))

    def nights(self) -> Iterator[tuple[date, Fraction]]:
        """Hours slept, to a quarter of an hour, over the last half of the time."""
        for past in range(7 * self.weeks // 2, 7 * self.weeks):
            short = self.rng.random() < SHORT_NIGHTS
            hours = self.rng.gauss(5.8, 0.5) if short else self.rng.gauss(7.6, 0.4)
            yield self.first_day + timedelta(days=past), Fraction(round(4 * hours), 4)


def body_entries(body: DemoBody, *, now: datetime, rng: Random) -> list[Entry]:
    """Everything she noted of her body, as entries ready to be appended; `rng` makes their ids."""
    entries = [one for row in body.girths() for one in girth_entries(row, now=now, rng=rng)]
    entries += [weight_entry(one, now=now, rng=rng) for one in body.weighings()]
    entries += [
        Entry(id=uuid7(now, rng), kind="sleep", day=day, made_at=now, body={"hours": _text(hours)})
        for day, hours in body.nights()
    ]
    return entries


def _text(hours: Fraction) -> str:
    return f"{float(hours):g}"
