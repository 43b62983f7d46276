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
from tubeframe.words.bending import mark_words

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.plane import Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.parts.piece import Piece, PieceGroup, Station

_CLAMP_PAST = 4.0
"""A clamp's ends are drawn this far past the tube's outline [mm]."""


def strip_of(book: PartBook, group: PieceGroup, bent: BendSheet | None = None) -> Flat:
    """Return the strip of a kind of piece: its outline as cut, and from end A its clamps.

    A tube that is bent is drawn straight and rough, as it is marked before bending: from its rough end A its bends'
    marks, its clamps, and where it is trimmed when it is bent.
    """
    piece = _straight(group.first, bent)
    radius = book.outside(piece) / 2.0
    tube = MarkedTube(
        piece=piece,
        radius=radius,
        label=f"{group.mark} x {group.quantity}",
        ticks=_ticks(book, piece, bent),
        says_part=True,
    )
    clamps = tuple(s for station in piece.stations for s in _clamp(book, station, piece, radius))
    lines: list[Drawn] = [
        strokes(Pen.STRIP, _outline(piece.cut_length, radius)),
        *centreline(piece.path, PLAN),
    ]
    lines += [strokes(Pen.FITTING, clamps)] if clamps else []
    return Flat(title=(), view=PLAN, tubes=(tube,), lines=tuple(lines))


def _straight(piece: Piece, bent: BendSheet | None) -> Piece:
    """Lay a piece straight; one that is bent as long as it is taken from the stick."""
    if bent is None:
        return replace(piece, path=line(ORIGIN, X * piece.cut_length))
    return replace(
        piece,
        path=line(ORIGIN, X * bent.rough_length),
        stations=tuple(replace(s, from_a=s.from_a + bent.trim_a) for s in piece.stations),
    )


def _ticks(book: PartBook, piece: Piece, bent: BendSheet | None) -> tuple[Tick, ...]:
    """Mark bends and clamps with their distances from end A, and what is there."""

    def tick(at: float, past: float, what: str) -> Tick:
        return Tick(at=at, past=past, text=f"{format_length(at, book.units)} {what}")

    found = [tick(s.from_a, STATION_PAST, book.joint_of[s.joint].kind) for s in piece.stations]
    if bent is not None:
        found += [tick(m.at, BEND_PAST, mark_words(m)) for m in bent.bends]
        found += [tick(at, BEND_PAST, "trim") for at in (bent.trim_a, bent.rough_length - bent.trim_b)]
    return tuple(sorted(found, key=lambda t: t.at))


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
