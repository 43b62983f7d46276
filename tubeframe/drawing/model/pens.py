"""Kinds of lines and fills, and how they look on paper."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


class Pen(StrEnum):
    """What a line is of: its layer in a CAD file, and its look on paper by `PEN_STYLES`."""

    TUBE = "TUBE"
    FITTING = "FITTING"
    PANEL = "PANEL"
    HIDDEN = "HIDDEN"
    CENTRE = "CENTER"
    """Centre lines, and ways that parts take."""
    DIM = "DIM"
    TEXT = "TEXT"
    BALLOON = "BALLOON"
    BORDER = "BORDER"
    STRIP = "STRIP"
    """Outlines of marking strips."""
    WIDE = "WIDE"
    """What is said loudest on a page."""
    FINE = "FINE"
    """What stands already in a small picture."""
    NARROW = "NARROW"
    """What stands back: rules, frames, leaders."""
    GUIDE = "GUIDE"
    """From a part that is drawn apart to where it goes."""


class Fill(StrEnum):
    """How an area is filled; `FILL_GREYS` says how light."""

    BLACK = "black"
    LIGHT = "light"
    WHITE = "white"


@dataclass(frozen=True, slots=True, kw_only=True)
class PenStyle:
    """Width of a line, and the lengths of dashes and gaps in turn; none when it is continuous [mm]."""

    width: float
    dashes: tuple[float, ...] = ()


_NARROW_WIDTH = 0.25
_DASH, _LONG, _GAP, _DOT = (_NARROW_WIDTH * widths for widths in (12.0, 24.0, 3.0, 0.5))
_WIDE, _MEDIUM, _NARROW, _FINE = (PenStyle(width=w) for w in (0.5, 0.35, _NARROW_WIDTH, 0.18))

PEN_STYLES: Mapping[Pen, PenStyle] = MappingProxyType(
    {
        Pen.TUBE: _MEDIUM,
        Pen.FITTING: _MEDIUM,
        Pen.PANEL: _MEDIUM,
        Pen.HIDDEN: PenStyle(width=_NARROW_WIDTH, dashes=(_DASH, _GAP)),
        Pen.CENTRE: PenStyle(width=_NARROW_WIDTH, dashes=(_LONG, _GAP, _DOT, _GAP)),
        Pen.DIM: _NARROW,
        Pen.TEXT: _NARROW,
        Pen.BALLOON: _NARROW,
        Pen.BORDER: _WIDE,
        Pen.STRIP: _WIDE,
        Pen.WIDE: _WIDE,
        Pen.FINE: _FINE,
        Pen.NARROW: _NARROW,
        Pen.GUIDE: PenStyle(width=0.18, dashes=(1.2, 0.8)),
    }
)
"""Widths of the series 0.18 0.25 0.35 0.5, wide to narrow 2 to 1; dashes 12, long dashes 24, gaps 3 and dots 0.5 line
widths: ISO 128-2, line types 01, 02 and 04 (from memory; the standard was not open)."""

FILL_GREYS: Mapping[Fill, float] = MappingProxyType({Fill.BLACK: 0.0, Fill.LIGHT: 0.9, Fill.WHITE: 1.0})
"""From 0 for black to 1 for white. Black text on the light one stays legible in a photocopy."""
