"""What the user measured on his own fittings, by kind, tube size and angle."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.geometry.tolerance import ANGLE_DEG

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.catalog.tube import TubeSize

Sizes = tuple[str, ...]
"""The tubes of a fitting: one key where all are alike, else those of the runs and then those of the branches."""

LENGTHS = ("grip", "branch_grip", "offset", "length", "thickness")
"""What can be measured beside the setback that is a length of the fitting."""

ALL_SIZES: Sizes = ()
BETWEEN = " x "
"""What stands between tubes of two sizes in a name: the run's, then the branch's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What was measured on one kind, on tubes of one size or on all; None where nobody measured. Lengths in [mm].

    `setback` is for every angle, `setback_by_angle` by the port's angle [degree] in rising order.
    """

    kind: str
    sizes: Sizes = ALL_SIZES
    setback: float | None = None
    setback_by_angle: tuple[tuple[float, float], ...] = ()
    grip: float | None = None
    branch_grip: float | None = None
    offset: float | None = None
    length: float | None = None
    thickness: float | None = None
    slip_force: float | None = None
    twist_moment: float | None = None
    bolt_torque: float | None = None
    price: float | None = None
    on_hand: int | None = None

    def setback_at(self, angle: float) -> float | None:
        """Return the measured setback [mm] of a port at an angle [degree], on a line between two measured angles."""
        table = self.setback_by_angle
        if not table or not table[0][0] - ANGLE_DEG <= angle <= table[-1][0] + ANGLE_DEG:
            return self.setback
        at = min(max(angle, table[0][0]), table[-1][0])
        for (low, first), (high, last) in pairwise(table):
            if low <= at <= high:
                return first + (last - first) * (at - low) / (high - low)
        return table[0][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """All that was measured.

    What was measured on the very size rules over what was measured on all sizes, value by value; where neither knows
    a value, the generic rule stays.
    """

    rows: tuple[Measured, ...] = ()

    def of(self, kind: str, sizes: Sizes) -> Iterator[Measured]:
        """Give what counts for a kind on tubes of these sizes, what rules first."""
        for wanted in dict.fromkeys((sizes, ALL_SIZES)):
            yield from (m for m in self.rows if m.kind == kind and m.sizes == wanted)

    def value(self, kind: str, sizes: Sizes, key: str) -> float | None:
        """Return a measured value of a kind on tubes of these sizes; None when nobody measured it."""
        return next((v for m in self.of(kind, sizes) if (v := getattr(m, key)) is not None), None)

    def setback(self, kind: str, sizes: Sizes, angle: float) -> tuple[float, Sizes] | None:
        """Return the setback [mm] of a port at an angle [degree], and the sizes it was measured on; None without."""
        return next(((v, m.sizes) for m in self.of(kind, sizes) if (v := m.setback_at(angle)) is not None), None)


def sizes_of(kind: FittingKind, tubes: Mapping[str, TubeSize]) -> Sizes:
    """Name the tubes of a fitting, given by its ports: runs first, then branches, in each the thickest first."""
    named: list[str] = []
    for role in PortRole:
        keys = [t.key for t in sorted((tubes[p.name] for p in kind.ports_of(role)), key=lambda t: -t.outside)]
        named += keys[:1] if len(set(keys)) == 1 else keys
    return tuple(named[:1]) if len(set(named)) == 1 else tuple(named)
