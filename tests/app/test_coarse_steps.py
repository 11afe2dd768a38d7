"""Steps too coarse for the range: which side of it is taken when last time's load is too heavy."""

from __future__ import annotations

import pytest

from pennate.app.choose import Anchors, Choice, Chooser, Stop
from pennate.app.slots import Slot
from pennate.core.prescribed import PrescribedSets, Span
from pennate.estimate import fit
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import TEN_REPS_KG, asked, steady

CATALOGUE = read_catalogue()
TEN = TEN_REPS_KG["bench_press"]
MODEL = fit(steady(("bench_press",)), CATALOGUE)
TOO_HEAVY = 1.15 * TEN
"""About four reps where eight to twelve are asked."""
SETS = [
    (0, Slot(key=f"0.1.{one}", block=0, asked=PrescribedSets(reps=Span(8, 12)), rest_s=180))
    for one in (1, 2)
]


@pytest.mark.parametrize(("below", "taken"), [(0.94, True), (0.6, False)])
def test_the_step_below_is_taken_where_it_still_makes_hard_sets(below: float, taken: bool) -> None:  # noqa: FBT001 # a table
    """With four reps likely of eight, the lighter step is asked for although the heavier one is
    nearer; not where the top of the range would leave six or more (no hard set, core.dose).
    """
    stop = Stop(index=0, base=asked(kg=None), body_kg=0.0, rungs=(below * TEN, TOO_HEAVY))
    anchors = Anchors(loads={(0, 0): TOO_HEAVY}, word=Choice.LAST_TIME, lower_word=Choice.LOWERED)
    found = Chooser(MODEL, {0: stop}, anchors).choose(SETS)[0, 0]
    assert found.why is Choice.LOWERED
    assert below * TEN < found.felt_kg < TOO_HEAVY
    assert found.ceiling is taken
