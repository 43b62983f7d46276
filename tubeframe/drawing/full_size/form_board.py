"""A form at full size: the board's edge, the stop that holds the tube's end, and the tube as it lies on it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.rules import HELD_BY_FORM
from tubeframe.drawing.full_size.drawn_flat import BEND_PAST
from tubeframe.drawing.full_size.flat_lines import centreline
from tubeframe.drawing.full_size.laid_flat import Flat, MarkedTube, Tick
from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import PLAN
from tubeframe.drawing.shapes import Arc
from tubeframe.geometry.path import Arc as Bend
from tubeframe.geometry.path import Path, Straight
from tubeframe.geometry.vector import ORIGIN, Vec, X, Y
from tubeframe.parts.turns import bends_of
from tubeframe.words.bending import form_words

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.plane import Point, Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.bending.forms import Form

_DEEP = 120.0
"""The board goes on so far behind its edge [mm]."""
_STOP, _STOP_LONG = 40.0, 80.0
"""The block that holds the tube's end against the edge: how deep and long it is [mm]."""


def form_flat(book: PartBook, form: Form, number: int) -> Flat:
    """Return a form's drawing: the tube comes in straight from end A, round the edge, and off straight."""
    path = _on_form(form)
    group = next(g for g in book.parts.groups if g.mark == form.marks[0])
    piece = replace(group.first, path=path, stations=(), bends=bends_of(path))
    begin = HELD_BY_FORM
    tube = MarkedTube(
        piece=piece,
        radius=form.outside / 2.0,
        label=f"FORM {number}",
        ticks=(
            Tick(at=begin, past=BEND_PAST, text="form begins: the mark goes here"),
            Tick(at=begin + form.length, past=BEND_PAST, text="form ends"),
        ),
    )
    lines = (*_board(form), *_outside(path, form.outside / 2.0), *centreline(path, PLAN))
    return Flat(title=form_words(form, number, book.units), view=PLAN, tubes=(tube,), lines=lines)


def _on_form(form: Form) -> Path:
    """Lay the tube's middle as it lies on the form, its straight before it along x."""
    start = X * HELD_BY_FORM
    arc = Bend(start=start, start_tangent=X, inward=Y, radius=form.bent_to, angle=math.radians(form.sweep))
    off = arc.end_tangents[1]
    straights = (Straight(start=ORIGIN, end=start), Straight(start=arc.end, end=arc.end + off * HELD_BY_FORM))
    return Path(pieces=(straights[0], arc, straights[1]))


def _board(form: Form) -> list[Drawn]:
    """Draw the board: its edge, its back, its two sides, and the stop beside the tube where the form begins."""
    centre = (HELD_BY_FORM, form.bent_to)
    turns = (-90.0, -90.0 + form.sweep)
    back = max(form.edge - _DEEP, 0.0)
    edges = [
        Drawn(shape=Arc(centre=centre, radius=r, start_deg=turns[0], end_deg=turns[1]), pen=Pen.PANEL)
        for r in (form.edge, back)
        if r > 0.0
    ]
    sides: list[Segment] = [(_round(centre, form.edge, t), _round(centre, back, t)) for t in turns]
    return [*edges, strokes(Pen.PANEL, (*sides, *_stop(form)))]


def _stop(form: Form) -> tuple[Segment, ...]:
    """Draw the block that the tube's end is hooked behind, on its outside."""
    left, right, top = HELD_BY_FORM - _STOP_LONG, HELD_BY_FORM, -form.outside / 2.0
    corners = ((left, top), (right, top), (right, top - _STOP), (left, top - _STOP))
    return tuple((corners[k], corners[(k + 1) % 4]) for k in range(4))


def _outside(path: Path, half: float) -> list[Drawn]:
    """Draw both outlines of the tube."""
    items: list[Drawn] = []
    for side in (half, -half):
        items += centreline(Path(pieces=tuple(_beside(p, side) for p in path.pieces)), PLAN, Pen.TUBE)
    return items


def _beside(piece: Straight | Bend, side: float) -> Straight | Bend:
    """Move a piece to the left as one looks along it [mm]."""
    if isinstance(piece, Bend):
        return replace(piece, start=piece.start + piece.inward * side, radius=piece.radius - side)
    left = _left(piece.end_tangents[0])
    return Straight(start=piece.start + left * side, end=piece.end + left * side)


def _left(way: Vec) -> Vec:
    return Vec(-way.y, way.x, 0.0)


def _round(centre: Point, radius: float, turn: float) -> Point:
    angle = math.radians(turn)
    return (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))
