"""HiGHS on a linear model: the only file that imports the solver.

One thread and counted limits (simplex pivots, nodes), so the same calls give the same answers
on any machine. The solver works without Python's lock: searching goes on beside it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

from pennate.plan.model import Linear, Terms

if TYPE_CHECKING:
    import highspy


class Point(NamedTuple):
    """A solution of a relaxation."""

    values: list[float]
    """Of the columns."""
    rows: list[float]
    """What the rows come to."""
    prices: list[float]
    """Of the rows."""
    net: list[float]
    """What one more of each column would be worth at those prices."""


class HaltedError(Exception):
    """Somebody asked the solver to halt."""


class Solver:
    """HiGHS on one linear model; raises HaltedError before a solution once `halt` is true."""

    def __init__(self, linear: Linear, halt: Callable[[], bool] = lambda: False) -> None:
        import highspy
        import numpy as np

        self.halt = halt
        self.pivots = 0
        """Simplex pivots so far."""
        self.highs: Any = _quiet()
        self.columns = len(linear.cost)
        self.whole = linear.whole
        for name, value in (("output_flag", False), ("threads", 1), ("mip_rel_gap", 0.0)):
            self.highs.setOptionValue(name, value)
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = self.columns, len(linear.rows)
        model.offset_ = linear.constant
        model.sense_ = highspy.ObjSense.kMaximize
        model.col_cost_, model.col_lower_ = np.array(linear.cost), np.array(linear.low)
        model.col_upper_ = np.array(linear.high)
        model.row_lower_ = np.array([low for low, _, _ in linear.rows])
        model.row_upper_ = np.array([high for _, high, _ in linear.rows])
        _fill(model, linear)
        self.highs.passModel(model)

    def relax(self) -> float:
        """Value of the relaxation; minus infinity where nothing fits, infinity unsolved."""
        if self.halt():
            raise HaltedError
        self.highs.run()
        self.pivots += self.highs.getInfo().simplex_iteration_count
        status = self.highs.getModelStatus()
        if status == _status("kOptimal"):
            return float(self.highs.getInfo().objective_function_value)
        return -math.inf if status == _status("kInfeasible") else math.inf

    def solution(self) -> Point:
        """The last solution."""
        now = self.highs.getSolution()
        return Point(*map(list, (now.col_value, now.row_value, now.row_dual, now.col_dual)))

    def add(self, terms: Terms, high: float) -> None:
        """One more row, terms ≤ high."""
        import numpy as np

        columns = np.array([column for column, _ in terms], dtype=np.int32)
        self.highs.addRow(-math.inf, high, len(terms), columns, np.array([f for _, f in terms]))

    def hold_column(self, column: int, low: float, high: float) -> None:
        """Keep a column between two values."""
        self.highs.changeColBounds(column, low, high)

    def hold_row(self, row: int, low: float, high: float) -> None:
        """Keep a row of the model between two values."""
        self.highs.changeRowBounds(row, low, high)

    def where(self) -> Any:
        """The basis of the last solution, to go on from another time."""
        return self.highs.getBasis()

    def go_on(self, basis: Any) -> None:
        """Go on from a basis; rows that came after it are taken to be slack."""
        import highspy

        since = self.highs.getNumRow() - len(basis.row_status)
        if since:
            wider = highspy.HighsBasis()
            slack = [highspy.HighsBasisStatus.kBasic] * since
            wider.col_status, wider.row_status = basis.col_status, [*basis.row_status, *slack]
            wider.valid, wider.alien = True, False
            basis = wider
        self.highs.setBasis(basis)

    def whole_numbers(self, nodes: int) -> tuple[list[float] | None, float]:
        """Branch and bound by so many nodes; a solution (None without one) and the bound."""
        import highspy

        self.highs.setOptionValue("mip_max_nodes", nodes)
        for column, whole in enumerate(self.whole):
            if whole:
                self.highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
        self.highs.run()
        solution = self.highs.getSolution()
        values = list(solution.col_value) if solution.value_valid else None
        return values, float(self.highs.getInfo().mip_dual_bound)


def _quiet() -> Any:
    """HiGHS without its greeting, which would stand before a JSON document."""
    import highspy

    class Quiet(highspy.Highs):
        """Silent from before its first word."""

        def enableCallbacks(self) -> None:  # noqa: N802 - the solver's own name
            self.setOptionValue("output_flag", False)  # noqa: FBT003 - the solver's own form
            super().enableCallbacks()  # type: ignore[no-untyped-call] # shipped without types

    return Quiet()  # type: ignore[no-untyped-call] # shipped without types


def _status(name: str) -> Any:
    import highspy

    return getattr(highspy.HighsModelStatus, name)


def _fill(model: highspy.HighsLp, linear: Linear) -> None:
    import highspy
    import numpy as np

    starts, index, value = [0], [], []
    for _, _, terms in linear.rows:
        index += [column for column, _ in terms]
        value += [float(factor) for _, factor in terms]
        starts.append(len(index))
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.array(starts)
    model.a_matrix_.index_ = np.array(index)
    model.a_matrix_.value_ = np.array(value)
