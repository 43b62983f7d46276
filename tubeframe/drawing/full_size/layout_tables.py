"""What lies flat, laid on tables side by side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.full_size.drawn_flat import marked
from tubeframe.drawing.full_size.nesting import nest
from tubeframe.drawing.full_size.parting import parted
from tubeframe.drawing.model.items import Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import Item, box_of
from tubeframe.drawing.shapes.plane import QUARTER_TURN, moved, size_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.full_size.laid_flat import Flat
    from tubeframe.drawing.full_size.nesting import Place, Size
    from tubeframe.drawing.shapes.plane import Segment
    from tubeframe.geometry.units import Units

GAP, EDGE = 30.0, 20.0
"""Clear between two drawings, and between one and the table's edge [mm]."""
_BETWEEN = 200.0
"""Between two tables, and round what fits on none [mm]."""
_NAME, _ABOVE = 20.0, 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Outlines of tables, their upper edge at 0 [mm]; each drawing on them; and the names of what fits on none.

    What fits on none is among the drawings, beside the tables.
    """

    tables: tuple[Item, ...]
    drawings: tuple[tuple[Item, ...], ...]
    left_over: tuple[str, ...]

    @property
    def items(self) -> tuple[Item, ...]:
        """All that is drawn."""
        return (*self.tables, *(item for drawing in self.drawings for item in drawing))


def on_tables(flats: Sequence[Flat], table: Size, units: Units) -> Laid:
    """Lay flat things on tables of a size [mm], in parts where need be, turned where it helps.

    What does not fit even in parts is drawn whole beside the last table.
    """
    room = (table[0] - 2.0 * EDGE, table[1] - 2.0 * EDGE)
    drawings: list[list[Item]] = []
    left_over: list[Flat] = []
    lines = 0
    for flat in flats:
        found = parted(flat, room, units, lines)
        if found is None:
            left_over.append(flat)
            continue
        drawings += found.drawings
        lines += found.lines
    places = nest([size_of(box_of(d)) for d in drawings], table, gap=GAP, edge=EDGE)
    count = max((p.table + 1 for p in places if p is not None), default=0)
    on = [_placed(d, place, table) for d, place in zip(drawings, places, strict=True) if place is not None]
    return Laid(
        tables=tuple(item for n in range(count) for item in _table(n, table)),
        drawings=(*on, *_beside(left_over, _corner(count, table)[0])),
        left_over=tuple(_name(f) for f in left_over),
    )


def _beside(flats: Sequence[Flat], x: float) -> list[tuple[Item, ...]]:
    """Draw what fits on no table whole, side by side from a place on [mm]."""
    found = []
    for flat in flats:
        whole = marked(flat)
        left, _, right, top = box_of(whole)
        found.append(tuple(i.placed(moved((x - left, -top))) for i in whole))
        x += right - left + _BETWEEN
    return found


def _name(flat: Flat) -> str:
    """Return what a thing is called in a sentence."""
    return flat.title[0].split(":")[0] if flat.title else f"the strip of {flat.tubes[0].piece.mark}"


def _corner(number: int, table: Size) -> tuple[float, float]:
    """Return the lower left corner of a table [mm]."""
    return (number * (table[0] + _BETWEEN), -table[1])


def _table(number: int, table: Size) -> list[Item]:
    """Draw a table's outline with its name above."""
    x, y = _corner(number, table)
    corners = ((x, y), (x + table[0], y), (x + table[0], 0.0), (x, 0.0))
    sides: tuple[Segment, ...] = tuple((corners[k], corners[(k + 1) % 4]) for k in range(4))
    return [
        strokes(Pen.BORDER, sides),
        Text(at=(x, _ABOVE), text=f"TABLE {number + 1}", height=_NAME),
    ]


def _placed(drawing: list[Item], place: Place, table: Size) -> tuple[Item, ...]:
    """Put a drawing at its place on its table."""
    items = [i.placed(QUARTER_TURN) for i in drawing] if place.is_turned else drawing
    left, bottom, _, _ = box_of(items)
    x, y = _corner(place.table, table)
    by = (x + place.at[0] - left, y + place.at[1] - bottom)
    return tuple(i.placed(moved(by)) for i in items)
