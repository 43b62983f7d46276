"""How boards are held down on tubes: two-hole straps from below, each with two wood screws.

Common practice, no source: a strap each 14 in, screws a quarter inch shorter than what they go into, a pilot hole.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.units import INCH_MM, Units, format_length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.panel import Panel
    from tubeframe.joints.joint import Bearing, Jointed

STRAP_PITCH = 14.0 * INCH_MM
"""Straps stand so far apart along a tube [mm]."""
_LEAST = 2.5 * INCH_MM
"""A shorter stretch of tube takes no strap [mm]."""
_SHORTER = INCH_MM / 4.0
"""A screw is so much shorter than the wood it goes into [mm]."""
_ROUNDING = 1e-4
"""A length a hair under a step is that step [steps]."""
PILOT = 2.5
"""Of the holes for No. 8 screws [mm]."""
SCREWS = 2
"""Screws a strap takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """The straps of one board on tubes of one size, and how long their screws are [mm]."""

    board: str
    tube: str
    straps: int
    screw: float
    through_strips: bool


def fixings(frame: Frame, jointed: Jointed) -> tuple[Fixing, ...]:
    """Return what holds each board that lies on tubes, but for the strips under others."""
    sizes = {t.id: t.size for t in jointed.tubes}
    boards = {p.id: p for p in frame.panels}
    found: list[Fixing] = []
    for board in (p for p in frame.panels if p.use is not PanelUse.STRIP):
        own = [b for b in jointed.bearings if b.board == board.id and b.end - b.start >= _LEAST]
        for size in dict.fromkeys(sizes[b.tube] for b in own):
            on = [b for b in own if sizes[b.tube] == size]
            straps = sum(max(1, round((b.end - b.start) / STRAP_PITCH)) for b in on)
            found.append(
                Fixing(
                    board=board.id,
                    tube=size,
                    straps=straps,
                    screw=_screw(board, on, boards),
                    through_strips=any(b.through for b in on),
                )
            )
    return tuple(found)


def _screw(board: Panel, on: Sequence[Bearing], boards: Mapping[str, Panel]) -> float:
    """Return how long a screw may be through the thinnest place [mm]."""
    strips = [boards[b.through].thickness if b.through else 0.0 for b in on]
    return board.thickness + min(strips) - _SHORTER


def sold_length(length: float, units: Units) -> str:
    """Print a screw's length, rounded down to what is sold: an eighth of an inch, or 5 mm [mm]."""
    step = INCH_MM / 8.0 if units is Units.INCH else 5.0
    return format_length(math.floor(length / step + _ROUNDING) * step, units)
