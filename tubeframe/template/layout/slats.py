"""Slats from front to back, evened between what stands on the rails (all in [mm])."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.units import INCH_MM, Units
from tubeframe.template.layout.boards import across, lay_row
from tubeframe.template.layout.stations import apart

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.frame.builder import FrameBuilder

_SIZES = {Units.INCH: (3.5 * INCH_MM, 0.75 * INCH_MM), Units.MILLIMETRE: (90.0, 18.0)}
_GAP = 1.0 * INCH_MM


def slat_thickness(units: Units) -> float:
    """Return how thick a slat is, in the sizes that are sold in a system of units."""
    return _SIZES[units][1]


def lay_slats(
    frame: FrameBuilder,
    name: str,
    stretches: Iterable[tuple[float, float]],
    reach: tuple[float, float],
    on: float,
    units: Units,
) -> None:
    """Lay slats.

    Args:
        frame: what they are laid on.
        name: what they are called, each with its number.
        stretches: from where to where along x they lie [mm].
        reach: their front and back ends [mm].
        on: the height that they lie at [mm].
        units: whose sizes they have.

    """
    width, thickness = _SIZES[units]
    places = [x for a, b in stretches for x in apart(a + width / 2.0, b - width / 2.0, width + _GAP)]
    lay_row(frame, name, PanelUse.SLAT, across(places, width, *reach), on, thickness)
