"""One flat part of a frame at full size: tubes, clamps, and what is marked on them."""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.drawing.bodies import bodies
from tubeframe.drawing.extents import box_of
from tubeframe.drawing.flat_lines import centreline, hidden_lines
from tubeframe.drawing.free_places import FreePlaces
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.picture import Layer, Note, PictureItem, Strokes
from tubeframe.drawing.scene import View
from tubeframe.drawing.sheet import Anchor
from tubeframe.drawing.view_lines import drawn_lines
from tubeframe.fabrication.diagonals import sub_frame_sides
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.design import Design
    from tubeframe.drawing.picture import Point, Segment
    from tubeframe.fabrication.subframes import SubFrame
    from tubeframe.parts.piece import Piece

_TITLE, _MARK, _TEXT = 20.0, 20.0, 10.0
"""Heights of capitals [mm]."""
_CLEAR = 4.0
"""Texts keep so far off what is drawn [mm]."""
_STATION_PAST, _BEND_PAST = 25.0, 8.0
"""A mark runs this far past a tube's outline [mm]."""
_FARTHEST, _STEP = 120.0, 6.0
_ABOVE = 40.0
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)


def flat_items(design: Design, group: tuple[SubFrame, ...]) -> list[PictureItem]:
    """Draw the first of some equal flat parts in its own plane, under a title for all of them."""
    flat = group[0]
    pieces = [p for p in design.parts.pieces if p.member in flat.members]
    view = View(to_viewer=flat.plane.z, right=flat.plane.x)
    items = _drawn(design, pieces, view)
    diagonals = _diagonals(design, flat, view)
    items += [Strokes(layer=Layer.DIM, segments=diagonals)] if diagonals else []
    free = FreePlaces(items, _CLEAR)
    marks = [_Tube(design, piece, view, free) for piece in pieces]
    for tube in marks:
        items += tube.bends() + tube.stations()
    for tube in marks:
        items += tube.names()
    items += _diagonal_text(design, diagonals, free)
    left, _, _, top = box_of(items, 1)
    title = _title(pieces, group)
    return [
        *items,
        *(
            Note(layer=Layer.TEXT, at=(left, top + _ABOVE + off), text=text, height=height)
            for text, height, off in zip(title, (_TITLE, _TEXT), (1.5 * _TITLE, 0.0), strict=False)
        ),
    ]


def _drawn(design: Design, pieces: list[Piece], view: View) -> list[PictureItem]:
    """Draw what is seen of the tubes and of the clamps on them, centre lines, and what the clamps hide."""
    tubes = {p.id for p in pieces}
    joints = [j.id for j in design.jointed.joints if any(u.tube in tubes for u in j.uses)]
    seen = visible_lines(bodies(design, tubes=tubes, joints=joints, panels=()), view)
    items: list[PictureItem] = []
    for layer in (Layer.TUBE, Layer.FITTING):
        items += drawn_lines([v.segments for v in seen if (v.key in tubes) is (layer is Layer.TUBE)], layer)[0]
    items += hidden_lines(design, pieces, view, seen)
    return items + [i for p in pieces for i in centreline(p, view)]


def _title(pieces: list[Piece], group: tuple[SubFrame, ...]) -> tuple[str, ...]:
    marks = Counter(p.mark for p in pieces)
    shown = ", ".join(f"{n} x {m}" for m, n in marks.items())
    title = f"{' '.join(f.id for f in group)}: {shown}"
    return (title, f"x {len(group)}: drawn once, made {len(group)} times") if len(group) > 1 else (title,)


class _Tube:
    """One tube's marks and texts, set where they are free."""

    def __init__(self, design: Design, piece: Piece, view: View, free: FreePlaces) -> None:
        self._piece = piece
        self._view = view
        self._free = free
        self._units = design.workshop.units
        self._radius = design.workshop.catalog.tube(piece.size).outside / 2.0

    def bends(self) -> list[PictureItem]:
        """Tick where each bend starts, with its number."""
        return [
            item
            for number, bend in enumerate(self._piece.bends, start=1)
            for item in self._tick(bend.start_from_a, _BEND_PAST, f"bend {number}")
        ]

    def stations(self) -> list[PictureItem]:
        """Mark the middle of every clamp, with its distance from end A."""
        return [
            item
            for s in self._piece.stations
            for item in self._tick(s.from_a, _STATION_PAST, format_length(s.from_a, self._units))
        ]

    def names(self) -> list[PictureItem]:
        """Write the tube's mark, and the names of its ends."""
        length = self._piece.cut_length
        near = [k * _TEXT for k in range(1, 40) if k * _TEXT < length / 2.0]
        wanted = (
            (self._beside([length * s for s in _SHARES], self._piece.mark, _MARK)),
            (self._beside(near, "A", _TEXT)),
            (self._beside([length - v for v in near], "B", _TEXT)),
        )
        return [note for notes in wanted if (note := self._free.put(notes)) is not None]

    def _tick(self, at: float, past: float, text: str) -> list[PictureItem]:
        """Draw a line across the tube, drawn out to its text."""
        (x, y), (nx, ny) = self._across(at)
        half = self._radius + past
        found = None
        for off in _steps(half + _CLEAR):
            found = self._free.put(self._text_at((x, y), (nx * s, ny * s), off, text, _TEXT) for s in (1.0, -1.0))
            if found is not None:
                break
        ends = [(x - nx * half, y - ny * half), (x + nx * half, y + ny * half)]
        segments: list[Segment] = [(ends[0], ends[1])]
        if found is not None and off > half + 2.0 * _CLEAR:
            sign = 1.0 if (found.at[0] - x) * nx + (found.at[1] + _TEXT / 2.0 - y) * ny > 0.0 else -1.0
            reach = off - _CLEAR
            segments.append((ends[sign > 0.0], (x + nx * sign * reach, y + ny * sign * reach)))
        self._free.take(segments)
        tick = Strokes(layer=Layer.CENTER, segments=tuple(segments))
        return [tick] if found is None else [tick, found]

    def _beside(self, places: list[float], text: str, height: float) -> Iterator[Note]:
        """List places for a text beside the tube, the nearest to it first."""
        for off in _steps(self._radius + 2.0 * _CLEAR):
            for at in places:
                point, (nx, ny) = self._across(at)
                for sign in (1.0, -1.0):
                    yield self._text_at(point, (nx * sign, ny * sign), off, text, height)

    def _across(self, at: float) -> tuple[Point, Point]:
        """Return the place on the tube and the unit vector square to it, in the plane."""
        path = self._piece.path
        point, way = self._view.project(path.point(at)), self._view.project(path.tangent(at))
        return point, (-way[1], way[0])

    def _text_at(self, point: Point, way: Point, off: float, text: str, height: float) -> Note:
        """Set a text so that its box begins an offset from a point [mm], to one side."""
        note = Note(layer=Layer.TEXT, at=(0.0, 0.0), text=text, height=height, anchor=Anchor.CENTRE)
        left, bottom, right, top = box_of((note,), 1)
        reach = off + abs(way[0]) * (right - left) / 2.0 + abs(way[1]) * (top - bottom) / 2.0
        at = (point[0] + way[0] * reach, point[1] + way[1] * reach - (bottom + top) / 2.0)
        return Note(layer=Layer.TEXT, at=at, text=text, height=height, anchor=Anchor.CENTRE)


def _steps(first: float) -> Iterator[float]:
    """List distances from a first one to the farthest [mm]."""
    off = first
    while off <= first + _FARTHEST:
        yield off
        off += _STEP


def _diagonals(design: Design, flat: SubFrame, view: View) -> tuple[Segment, ...]:
    sides = sub_frame_sides(flat, design.parts)
    if sides is None:
        return ()
    (a, b), (c, d) = ((view.project(p.path.start), view.project(p.path.end)) for p in sides)
    return ((a, d), (c, b))


def _diagonal_text(design: Design, diagonals: tuple[Segment, ...], free: FreePlaces) -> list[PictureItem]:
    """Write on one of the diagonals how long both are."""
    if not diagonals:
        return []
    text = f"both diagonals {format_length(math.dist(*diagonals[0]), design.workshop.units)}"
    found = free.put(_on_line(segment, share, text) for share in _SHARES[1:] for segment in diagonals)
    return [found] if found else []


def _on_line(segment: Segment, share: float, text: str) -> Note:
    """Set a text on a line, to be read from below."""
    (ax, ay), (bx, by) = sorted(segment)
    angle = math.atan2(by - ay, bx - ax)
    off = 2.0 * _CLEAR
    at = (ax + (bx - ax) * share - off * math.sin(angle), ay + (by - ay) * share + off * math.cos(angle))
    return Note(layer=Layer.TEXT, at=at, text=text, height=_TEXT, anchor=Anchor.CENTRE, angle=math.degrees(angle))
