"""Every flat part of a frame at full size, to lay tubes on."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.bodies import bodies
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.picture import Layer, Note, Picture, PictureItem, Point, Segment, Strokes, moved
from tubeframe.drawing.scene import View
from tubeframe.drawing.sheet import Anchor
from tubeframe.drawing.view_lines import as_segments
from tubeframe.fabrication.diagonals import sub_frame_sides
from tubeframe.fabrication.subframes import SubFrame  # noqa: TC001  a field of a dataclass
from tubeframe.geometry.path import Arc
from tubeframe.geometry.units import INCH_MM, format_length

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.parts.piece import Piece

_GAP = 100.0
_ROW = 6000.0
_TITLE, _TEXT = 20.0, 10.0
_MARK_OFF = 22.0
_CHORDS = 6
_ABOVE = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """One drawing of a flat part: its items round its own origin, and the box they take (left, bottom, right, top)."""

    items: tuple[PictureItem, ...]
    box: tuple[float, float, float, float]


def layout(design: Design) -> Picture:
    """Draw every flat sub-frame and every bent member once, at 1:1, side by side with clear gaps."""
    items: list[PictureItem] = []
    x = y = 0.0
    row_height = 0.0
    for group in _alike(design):
        flat = _flat(design, group)
        left, bottom, right, top = flat.box
        if x > 0.0 and x + right - left > _ROW:
            x, y, row_height = 0.0, y - row_height - _GAP, 0.0
        items += [moved(i, (x - left, y - top)) for i in flat.items]
        x += right - left + _GAP
        row_height = max(row_height, top - bottom)
    items += _check_bars((0.0, y - row_height - _GAP))
    return Picture(
        title=f"{design.frame.name}: full-size layout", items=tuple(items), scale=1, units=design.workshop.units
    )


def _alike(design: Design) -> list[tuple[SubFrame, ...]]:
    """Put sub-frames together that are made of the same marks, the same way up: one drawing serves for all."""
    groups: dict[tuple[object, ...], list[SubFrame]] = {}
    for flat in design.fabrication.flats:
        pieces = _pieces(design, flat)
        key = tuple((p.mark, p.is_reversed, *_corner(p, flat)) for p in pieces)
        groups.setdefault(key, []).append(flat)
    return [tuple(g) for g in groups.values()]


def _corner(piece: Piece, flat: SubFrame) -> tuple[float, ...]:
    first = flat.plane.seen(piece.path.start - flat.plane.origin)
    last = flat.plane.seen(piece.path.end - flat.plane.origin)
    return tuple(round(v, 1) + 0.0 for v in (first.x, first.y, last.x, last.y))


def _pieces(design: Design, flat: SubFrame) -> list[Piece]:
    return [p for p in design.parts.pieces if p.member in flat.members]


def _flat(design: Design, group: tuple[SubFrame, ...]) -> Flat:
    flat = group[0]
    pieces = _pieces(design, flat)
    view = View(to_viewer=flat.plane.z, right=flat.plane.x)
    tubes = {p.id for p in pieces}
    joints = [j.id for j in design.jointed.joints if any(u.tube in tubes for u in j.uses)]
    seen = visible_lines(bodies(design, tubes=tubes, joints=joints, panels=()), view)
    items: list[PictureItem] = []
    for layer, wanted in ((Layer.TUBE, True), (Layer.FITTING, False)):
        segments = tuple(s for v in seen if (v.key in tubes) is wanted for s in as_segments(v.segments))
        items += [Strokes(layer=layer, segments=segments)] if segments else []
    for piece in pieces:
        items += _on_tube(design, piece, view)
    items += _diagonals(design, flat, view)
    points = [p for i in items if isinstance(i, Strokes) for s in i.segments for p in s]
    left, bottom = min(p[0] for p in points), min(p[1] for p in points)
    right, top = max(p[0] for p in points), max(p[1] for p in points)
    items.append(Note(layer=Layer.TEXT, at=(left, top + _ABOVE), text=_title(design, group), height=_TITLE))
    return Flat(items=tuple(items), box=(left, bottom, max(right, left + 600.0), top + _ABOVE + 2.0 * _TITLE))


def _title(design: Design, group: tuple[SubFrame, ...]) -> str:
    marks = Counter(p.mark for p in _pieces(design, group[0]))
    shown = ", ".join(f"{n} x {m}" for m, n in marks.items())
    return f"{' '.join(f.id for f in group)}: {shown}"


def _on_tube(design: Design, piece: Piece, view: View) -> list[PictureItem]:
    """Draw a tube's centreline, its mark, its ends' names, the middle of every clamp, and where bends start."""
    radius = design.workshop.catalog.tube(piece.size).outside / 2.0
    items: list[PictureItem] = [Strokes(layer=Layer.CENTER, segments=_centreline(piece, view))]
    ticks = [_tick(piece, s.from_a, view, radius * 1.6) for s in piece.stations]
    ticks += [_tick(piece, b.start_from_a, view, radius) for b in piece.bends]
    items += [Strokes(layer=Layer.CENTER, segments=tuple(ticks))] if ticks else []
    off = radius + _MARK_OFF
    for station in piece.stations:
        text = format_length(station.from_a, design.workshop.units)
        items.append(_beside(piece, station.from_a, view, off, text))
    for number, bend in enumerate(piece.bends, start=1):
        items.append(_beside(piece, bend.start_from_a, view, -off, f"bend {number}"))
    items.append(_beside(piece, piece.cut_length * 0.4, view, off, piece.mark, height=2.0 * _TEXT))
    items.append(_beside(piece, 4.0 * _TEXT, view, -off, "A"))
    items.append(_beside(piece, piece.cut_length - 4.0 * _TEXT, view, -off, "B"))
    return items


def _centreline(piece: Piece, view: View) -> tuple[Segment, ...]:
    segments: list[Segment] = []
    for part in piece.path.pieces:
        steps = _CHORDS if isinstance(part, Arc) else 1
        points = [view.project(part.point(part.length * k / steps)) for k in range(steps + 1)]
        segments += list(pairwise(points))
    return tuple(segments)


def _across(piece: Piece, at: float, view: View) -> tuple[Point, Point]:
    """Return the place on the tube and the unit vector square to it, in the plane."""
    point, way = view.project(piece.path.point(at)), view.project(piece.path.tangent(at))
    return point, (-way[1], way[0])


def _tick(piece: Piece, at: float, view: View, half: float) -> Segment:
    (x, y), (dx, dy) = _across(piece, at, view)
    return ((x - dx * half, y - dy * half), (x + dx * half, y + dy * half))


def _beside(piece: Piece, at: float, view: View, off: float, text: str, height: float = _TEXT) -> Note:
    (x, y), (dx, dy) = _across(piece, at, view)
    place = (x + dx * off, y + dy * off - height / 2.0)
    anchor = Anchor.CENTRE if abs(dx) < 0.5 else (Anchor.LEFT if dx * off > 0 else Anchor.RIGHT)
    return Note(layer=Layer.TEXT, at=place, text=text, height=height, anchor=anchor)


def _diagonals(design: Design, flat: SubFrame, view: View) -> list[PictureItem]:
    sides = sub_frame_sides(flat, design.parts)
    if sides is None:
        return []
    first, second = sides
    items: list[PictureItem] = []
    for start, end in ((first.path.start, second.path.end), (second.path.start, first.path.end)):
        a, b = view.project(start), view.project(end)
        items.append(Strokes(layer=Layer.DIM, segments=((a, b),)))
    a, b = view.project(first.path.start), view.project(second.path.end)
    text = f"both diagonals {format_length(first.path.start.distance(second.path.end), design.workshop.units)}"
    middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0 + 3.0 * _TEXT)
    items.append(Note(layer=Layer.TEXT, at=middle, text=text, height=_TEXT, anchor=Anchor.CENTRE))
    return items


def _check_bars(at: Point) -> list[PictureItem]:
    """Draw bars of 100 mm and 4 in: measure them before you trust a print."""
    items: list[PictureItem] = []
    x, y = at
    for k, (length, text) in enumerate(((100.0, "100 mm"), (4.0 * INCH_MM, "4 in"))):
        line = y - k * 3.0 * _TEXT
        ends = tuple(((x + dx, line - 3.0), (x + dx, line + 3.0)) for dx in (0.0, length))
        items.append(Strokes(layer=Layer.DIM, segments=(((x, line), (x + length, line)), *ends)))
        items.append(Note(layer=Layer.TEXT, at=(x + length + _TEXT, line - _TEXT / 2.0), text=text, height=_TEXT))
    return items
