"""A sheet of paper with lines, curves and texts: where every drawing ends and every writer of files begins.

All lengths are in mm on paper; the origin is the lower left corner of the paper, y goes up. Items are painted in their
order: a later one covers an earlier one.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

Point = tuple[float, float]
"""A place on the paper: from its left edge, from its lower edge [mm]."""


class Pen(StrEnum):
    """A kind of line; `PEN_STYLES` says how it looks."""

    EXTRA_WIDE = "extra wide"
    """Frames of sheets."""
    WIDE = "wide"
    """Visible edges."""
    MEDIUM = "medium"
    """Visible edges of a small picture in which wide ones would run together."""
    FINE = "fine"
    """What stands already in a small picture."""
    NARROW = "narrow"
    """Dimensions, leaders, and what stands back."""
    HIDDEN = "hidden"
    """Hidden edges."""
    CENTRE = "centre"
    """Centre lines, and ways that parts take."""
    PHANTOM = "phantom"
    """Neighbouring things that are no part of the frame."""


class Fill(StrEnum):
    """How an area is filled; `FILL_GREYS` says how light."""

    BLACK = "black"
    LIGHT = "light"
    WHITE = "white"


class Anchor(StrEnum):
    """Which point of a text stands on its place."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class Level(StrEnum):
    """At which height of a text its place is."""

    BASELINE = "baseline"
    MIDDLE = "middle"
    """Half the height of its capitals."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PenStyle:
    """Width of a line, and the lengths of dashes and gaps in turn; none when it is continuous [mm]."""

    width: float
    dashes: tuple[float, ...] = ()


_NARROW = 0.25
_DASH, _LONG, _GAP, _DOT = (_NARROW * widths for widths in (12.0, 24.0, 3.0, 0.5))

PEN_STYLES: Mapping[Pen, PenStyle] = MappingProxyType(
    {
        Pen.EXTRA_WIDE: PenStyle(width=0.7),
        Pen.WIDE: PenStyle(width=0.5),
        Pen.MEDIUM: PenStyle(width=0.35),
        Pen.FINE: PenStyle(width=0.18),
        Pen.NARROW: PenStyle(width=_NARROW),
        Pen.HIDDEN: PenStyle(width=_NARROW, dashes=(_DASH, _GAP)),
        Pen.CENTRE: PenStyle(width=_NARROW, dashes=(_LONG, _GAP, _DOT, _GAP)),
        Pen.PHANTOM: PenStyle(width=_NARROW, dashes=(_LONG, _GAP, _DOT, _GAP, _DOT, _GAP)),
    }
)
"""Widths of the series 0.25 0.35 0.5 0.7, wide to narrow 2 to 1; dashes 12, long dashes 24, gaps 3 and dots 0.5 line
widths: ISO 128-2, line types 01, 02, 04 and 05 (from memory; the standard was not open)."""

FILL_GREYS: Mapping[Fill, float] = MappingProxyType({Fill.BLACK: 0.0, Fill.LIGHT: 0.9, Fill.WHITE: 1.0})
"""From 0 for black to 1 for white. Black text on the light one stays legible in a photocopy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Straight lines, each from one point to another [mm]. Those that follow each other are drawn in one stroke."""

    segments: tuple[tuple[Point, Point], ...]
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """A line through points [mm], or the area in it; without a pen the area has no outline."""

    points: tuple[Point, ...]
    pen: Pen | None
    closed: bool = False
    fill: Fill | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle [mm], or the area in it; without a pen the area has no outline."""

    centre: Point
    radius: float
    pen: Pen | None
    fill: Fill | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcItem:
    """A part of a circle [mm], counterclockwise from one direction to another [degree from the right]."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Cubic:
    """Cubic curves end to end, 3 n + 1 control points [mm]."""

    control: tuple[Point, ...]
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text: its place and the height of its capitals [mm], turned counterclockwise [degree]."""

    at: Point
    text: str
    cap_height: float
    anchor: Anchor = Anchor.LEFT
    level: Level = Level.BASELINE
    angle_deg: float = 0.0
    bold: bool = False


Item = Lines | Polyline | Circle | ArcItem | Cubic | Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of paper: its size [mm], what it is called, and what is on it."""

    width: float
    height: float
    title: str
    items: tuple[Item, ...]
