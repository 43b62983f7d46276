"""How far fittings that swing reach (all in [mm])."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import ANGLE_DEG

if TYPE_CHECKING:
    from tubeframe.template.shop import Shop


def reach_at(kind: str, tube: str, angle: float, shop: Shop) -> float:
    """Return how far a fitting that swings reaches on a branch at an angle [degree], from its middle.

    Or a fixed one, which may be taken in its place: that is made for an angle up to the tolerance sharper.
    """
    return shop.fitting(kind, tube, angle - ANGLE_DEG).reach
