"""Marking strips: each kind of piece straight, at full size, to lay a tube on and mark it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.full_size.drawn_flat import BEND_PAST, STATION_PAST
from tubeframe.drawing.full_size.flat_lines import centreline
from tubeframe.drawing.full_size.laid_flat import Flat, MarkedTube, Tick
from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import PLAN
from tubeframe.geometry.path import line
from tubeframe.geometry.units import format_length
from tubeframe.geometry.vector import ORIGIN, X

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.plane import Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.parts.piece import Piece, PieceGroup, Station

_CLAMP_PAST = 4.0
"""A clamp's ends are drawn this far past the tube's outline [mm]."""


def strip_of(book: PartBook, group: PieceGroup) -> Flat:
    """Return the strip of a kind of piece: its outline as cut, and from end A its bends' starts and its clamps.

    A tube that is bent is drawn straight, as it is marked before bending.
    """
    first = group.first
    piece = replace(first, path=line(ORIGIN, X * first.cut_length))
    radius = book.outside(piece) / 2.0
    tube = MarkedTube(
        piece=piece,
        radius=radius,
        label=f"{group.mark} x {group.quantity}",
        ticks=_ticks(book, piece),
        says_part=True,
    )
    clamps = tuple(s for station in piece.stations for s in _clamp(book, station, piece, radius))
    lines: list[Drawn] = [
        strokes(Pen.STRIP, _outline(piece.cut_length, radius)),
        *centreline(piece.path, PLAN),
    ]
    lines += [strokes(Pen.FITTING, clamps)] if clamps else []
    return Flat(title=(), view=PLAN, tubes=(tube,), lines=tuple(lines))


def _ticks(book: PartBook, piece: Piece) -> tuple[Tick, ...]:
    """Mark bends and clamps with their distances from end A, and what is there."""

    def tick(at: float, past: float, what: str) -> Tick:
        return Tick(at=at, past=past, text=f"{format_length(at, book.units)} {what}")

    bends = [tick(b.start_from_a, BEND_PAST, f"bend {n}") for n, b in enumerate(piece.bends, start=1)]
    stations = [tick(s.from_a, STATION_PAST, book.joint_of[s.joint].kind) for s in piece.stations]
    return tuple(sorted(bends + stations, key=lambda t: t.at))


def _outline(length: float, radius: float) -> tuple[Segment, ...]:
    """Return a tube's outline in side view: along it, and across at both cut ends."""
    return (
        ((0.0, radius), (length, radius)),
        ((0.0, -radius), (length, -radius)),
        ((0.0, -radius), (0.0, radius)),
        ((length, -radius), (length, radius)),
    )


def _clamp(book: PartBook, station: Station, piece: Piece, radius: float) -> list[Segment]:
    """Return lines across the tube where a clamp ends on both sides of its middle."""
    fitting = book.joint_of[station.joint].fitting
    if fitting is None:
        return []
    half, out = fitting.port(station.port).grip / 2.0, radius + _CLAMP_PAST
    ends = (station.from_a - half, station.from_a + half)
    return [((at, -out), (at, out)) for at in ends if 0.0 <= at <= piece.cut_length]
