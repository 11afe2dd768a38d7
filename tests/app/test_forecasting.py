"""The table of forecasts: its numbers as they are printed."""

from __future__ import annotations

import json

import pytest

from pennate.app.forecasting import COLUMNS, forecast_csv, rounded


@pytest.mark.parametrize(
    ("reps", "printed"),
    [(-0.0004, "0.0"), (-0.0, "0.0"), (0.0004, "0.0"), (-0.0006, "-0.001"), (7.12345, "7.123")],
)
def test_no_number_of_the_table_is_a_negative_nought(reps: float, printed: str) -> None:
    """A low quantile just below nought is printed as 0.0 in the CSV and in the JSON document."""
    row: dict[str, object] = dict.fromkeys(COLUMNS, "x")
    row["p2.5"] = rounded(reps)
    assert forecast_csv([row]).splitlines()[1] == f"x,x,x,x,{printed},x,x,x,x,x,x"
    assert json.dumps(row["p2.5"]) == printed
