"""Dimensions placed outside a view: the shortest inside, none over another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.font_metrics import text_width
from tubeframe.drawing.picture import Dimension, Layer, PictureItem, Strokes
from tubeframe.drawing.wanted import Side
from tubeframe.geometry.units import Units, format_length, format_number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.picture import Point
    from tubeframe.drawing.view_lines import ViewLines
    from tubeframe.drawing.wanted import Wanted

TEXT = 3.5
FIRST_ROW, ROW = 10.0, 8.0
"""First dimension line off the outline, and between lines [mm on paper] (ISO 129-1, from memory)."""
_MARK = (1.0, 4.5)
"""A centre mark begins and ends this far off the outline [mm on paper]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Dimensions with their centre marks, what could not be placed in words, and the room they take [mm]."""

    items: tuple[PictureItem, ...]
    left_out: tuple[str, ...]
    below: float
    left: float


def placed(lines: ViewLines, wants: Sequence[Wanted], scale: int, units: Units) -> Placed:
    """Put dimensions round a view, at 1 : scale."""
    items: list[PictureItem] = []
    left_out: list[str] = []
    rooms = {}
    for side in Side:
        found, words = _side(lines, [w for w in wants if w.side is side], side, scale, units)
        items += found
        left_out += words
        rows = {d.line_at for d in found if isinstance(d, Dimension)}
        rooms[side] = scale * (FIRST_ROW + (len(rows) - 1) * ROW + TEXT) if rows else 0.0
    return Placed(items=tuple(items), left_out=tuple(left_out), below=rooms[Side.BELOW], left=rooms[Side.LEFT])


def dimension_text(length: float, units: Units) -> str:
    """Print a length [mm], rounded to nearest; millimetres without their sign, as the sheet says."""
    return format_length(length, units) if units is Units.INCH else format_number(length, units)


def _side(
    lines: ViewLines, wants: Sequence[Wanted], side: Side, scale: int, units: Units
) -> tuple[list[PictureItem], list[str]]:
    left, bottom, _, _ = lines.box
    edge = bottom if side is Side.BELOW else left
    rows: list[tuple[int, tuple[float, float]]] = []
    items: list[PictureItem] = []
    left_out = []
    for want in sorted(wants, key=lambda w: w.high - w.low):
        text = dimension_text(want.high - want.low, units)
        width = (text_width(text, TEXT) + 2.0) * scale
        holds = _holds(lines, want, scale)
        if holds is None or width > want.high - want.low:
            left_out.append(f"{'height' if side is Side.LEFT else 'opening'} {text}")
            continue
        row = 1 + max((r for r, (low, high) in rows if low < want.high and high > want.low), default=-1)
        rows.append((row, (want.low, want.high)))
        items.append(
            Dimension(
                axis=side.axis,
                start=holds[0],
                end=holds[1],
                line_at=edge - scale * (FIRST_ROW + ROW * row),
                text=text,
            )
        )
        if want.to_centre:
            items.append(Strokes(layer=Layer.CENTER, segments=(_centre_mark(edge, want.high, scale),)))
    return items, left_out


def _holds(lines: ViewLines, want: Wanted, scale: int) -> tuple[Point, Point] | None:
    """Return the points that a dimension holds on to, both on drawn lines."""
    axis = want.side.axis
    start = lines.hold(axis, want.low, least=True)
    if want.to_centre:
        end: Point | None = _centre_mark(lines.box[0], want.high, scale)[0]
    else:
        end = lines.hold(axis, want.high, least=True)
    return (start, end) if start and end else None


def _centre_mark(edge: float, height: float, scale: int) -> tuple[Point, Point]:
    """Return a short line at a tube's middle, left of the view; the outer end first."""
    near, far = _MARK
    return ((edge - far * scale, height), (edge - near * scale, height))
