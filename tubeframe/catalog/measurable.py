"""What can be measured of a kind of fitting, and at which angles."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole, is_square, sharp
from tubeframe.geometry.vector import angle_deg

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.fitting import FittingKind


def swings_at(kind: FittingKind, angles: Sequence[float]) -> tuple[float | None, ...]:
    """Return the angles from x of its port that turns [degree]: those given, or where its row states it."""
    return tuple(angles) if angles and kind.swings else (None,)


def deciding_lengths(kind: FittingKind) -> tuple[str, ...]:
    """Return the lengths that cuts and places of its tubes hang on; none for a piece that only closes an end."""
    return (
        *(("setback",) if kind.ports_of(PortRole.BRANCH) and not kind.is_sleeve else ()),
        *(("offset",) if kind.is_coupler or kind.wall else ()),
        *(("length",) if kind.is_sleeve else ()),
        *(("thickness",) if kind.on_floor else ()),
    )


def counted_angle(kind: FittingKind, angle: float) -> float:
    """Return an angle between two tubes as it is counted here [degree]: from either side the same beside a run."""
    swings = next((p.swing for p in kind.ports if p.swing), (None,))
    slanted = any(
        not is_square(angle_deg(b.axis_at(swing), run.axis))
        for run in kind.ports_of(PortRole.RUN)
        for b in kind.ports_of(PortRole.BRANCH)
        for swing in swings
    )
    return sharp(angle) if slanted else angle
