"""HiGHS, the open solver of linear and whole-number problems, as it is used here: quiet, and on one thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

import highspy
import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

INFINITY: float = highspy.kHighsInf
_NOTHING = np.zeros(0, dtype=np.int32)


class Solver:
    """A problem: rows first, then columns. All problems of one process use one thread, as the library asks for."""

    def __init__(self) -> None:
        """Start with an empty problem."""
        self._highs = highspy.Highs()
        self._highs.silent()
        self.set("threads", 1)

    def set(self, option: str, value: float) -> None:
        """Set an option of the library."""
        self._highs.setOptionValue(option, value)

    def add_rows(self, lows: Sequence[float], highs: Sequence[float]) -> None:
        """Add rows without columns, between two limits each."""
        for low, high in zip(lows, highs, strict=True):
            self._highs.addRow(low, high, 0, _NOTHING, np.zeros(0))

    def add_columns(
        self,
        costs: NDArray[np.float64],
        block: NDArray[np.float64],
        *,
        most: NDArray[np.float64] | None = None,
        whole: bool = False,
    ) -> None:
        """Add columns from 0 up: their costs (n,), and their entries (n, rows) all at once."""
        columns, rows = np.nonzero(block)
        n, before = len(block), self._highs.getNumCol()
        self._highs.addCols(
            n,
            np.ascontiguousarray(costs),
            np.zeros(n),
            np.full(n, INFINITY) if most is None else most,
            len(rows),
            np.searchsorted(columns, np.arange(n)).astype(np.int32),
            rows.astype(np.int32),
            block[columns, rows],
        )
        for column in range(before, before + n) if whole else ():
            self._highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)

    def run(self) -> None:
        """Solve."""
        self._highs.run()

    @property
    def status(self) -> str:
        """How it ended, in the library's words."""
        return str(self._highs.modelStatusToString(self._highs.getModelStatus()))

    @property
    def solved(self) -> bool:
        """Whether the best answer was found."""
        return bool(self._highs.getModelStatus() == highspy.HighsModelStatus.kOptimal)

    @property
    def impossible(self) -> bool:
        """Whether there is no answer at all."""
        return bool(self._highs.getModelStatus() == highspy.HighsModelStatus.kInfeasible)

    @property
    def cost(self) -> float:
        """The least cost found."""
        return float(self._highs.getInfo().objective_function_value)

    @property
    def nodes(self) -> int:
        """How many branches a whole-number problem took, at least one."""
        return max(1, int(self._highs.getInfo().mip_node_count))

    @property
    def values(self) -> NDArray[np.float64] | None:
        """How much of each column is taken; None without an answer."""
        found = self._highs.getInfo().primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        return np.array(self._highs.getSolution().col_value) if found else None

    @property
    def duals(self) -> NDArray[np.float64]:
        """What each row is worth."""
        return np.array(self._highs.getSolution().row_dual)
