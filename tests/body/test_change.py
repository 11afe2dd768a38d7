"""The change of a girth and its error, against published formulas and another implementation."""

from __future__ import annotations

import numpy as np
import pytest

from pennate.body.change import Change, Correction, correct, kriged_change
from pennate.body.series import gather, masses_by_day
from pennate.core.body import Site
from pennate.core.evidence.body import FAT_SHARE, GIRTH_ON_MASS, MASS_ERROR_KG, SKINFOLD_ERROR
from tests.body.rows import row


def test_kriging_agrees_with_generalised_least_squares() -> None:
    """Without a bend the change is the GLS slope times the span (numpy's weighted fit)."""
    rng = np.random.default_rng(4)
    weeks = np.array([0.0, 1, 3, 4, 9, 12])
    values = 50 + 0.1 * weeks + rng.normal(0, 0.4, 6)
    variances = np.array([0.1, 0.2, 0.1, 0.3, 0.1, 0.2])
    slope, _ = np.polyfit(weeks, values, 1, w=1 / np.sqrt(variances))
    means, _ = kriged_change(weeks, values, variances[None], np.zeros((6, 6)))
    assert means[0] == pytest.approx(slope * 12)


def test_two_dates_are_their_difference() -> None:
    """With two dates any bend cancels: the change is last less first, errors added."""
    weeks = np.array([0.0, 8.0])
    smooth = np.array([[0.0, 0.0], [0.0, 0.5]])
    means, found = kriged_change(weeks, np.array([55.0, 56.2]), np.array([[0.2, 0.3]]), smooth)
    assert means[0] == pytest.approx(1.2)
    assert found[0] == pytest.approx(0.5)


def test_interval_of_a_mixture_is_the_normals() -> None:
    """A mixture of equal normals has the normal's 1.96 (standard tables)."""
    change = Change(np.array([0.3, 0.7]), np.array([1.0, 1.0]), np.array([0.5, 0.5]))
    assert change.half_width(0.95) == pytest.approx(1.95996 * 0.5, abs=1e-4)


def test_skinfold_corrects_at_both_dates() -> None:
    """A girth that grew by exactly π × the fold's growth did not grow at all within the fat."""
    series = gather([row(0, 55.0, skinfold=18), row(56, 55.314, skinfold=19)])[0]
    corrected = correct(series, {})
    assert corrected.correction is Correction.SKINFOLD
    assert corrected.girths[1] - corrected.girths[0] == pytest.approx(0, abs=0.001)


def test_skinfold_error_is_counted() -> None:
    """A share of an 18 mm fold is π times as much of girth: 5 % are 0.283 cm (worked by hand)."""
    corrected = correct(gather([row(0, 55, skinfold=18), row(56, 55, skinfold=18)])[0], {})
    per_cent = np.sqrt(corrected.extra_variance[0]) / SKINFOLD_ERROR
    assert 5 * per_cent == pytest.approx(0.283, abs=0.001)


def test_weight_trend_corrects_where_no_skinfold_is() -> None:
    """2 % more body mass takes off the fat share of what it does to a thigh (open girths)."""
    rows = [row(0, 55.0, mass=65), row(56, 55.5, mass=66.3)]
    corrected = correct(gather(rows)[0], masses_by_day(rows))
    taken = 55 * GIRTH_ON_MASS[Site.THIGH] * FAT_SHARE * np.log(66.3 / 65)
    assert corrected.correction is Correction.WEIGHT
    assert corrected.girths[1] == pytest.approx(55.5 - taken)
    assert corrected.shared_variance > 0 < MASS_ERROR_KG


def test_nothing_known_of_fat_is_said() -> None:
    """With neither skinfold nor mass at both dates the correction is none, and named so."""
    rows = [row(0, 55.0, mass=65), row(56, 55.5)]
    corrected = correct(gather(rows)[0], {})
    assert corrected.correction is Correction.NONE
    assert "held" in corrected.correction.value
