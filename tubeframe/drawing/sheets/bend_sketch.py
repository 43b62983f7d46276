"""A bent tube as it lies on the floor, small: its marks, and the chalk lines that it is checked by."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from tubeframe.drawing.full_size.flat_lines import centreline
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Level, Text, strokes
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.model.scene import View
from tubeframe.drawing.shapes.plane import Transform, size_of
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point, Segment
    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.geometry.path import Arc, Path
    from tubeframe.geometry.units import Units
    from tubeframe.geometry.vector import Vec

_SCALES = (1, 2, 4, 5, 8, 10, 15, 20, 25, 30, 40, 50, 75, 100)
_TICK, _NUMBER, _END = 1.6, 4.2, 4.0
"""On paper: a mark's half length, its number's and an end's letter's distance from the tube [mm]."""
_BESIDE = 2.6
"""A value stands so far off its line [mm]."""
_ALONG_DEG = 3.0
"""A line that slants less counts as level or upright."""
_NEAR = 0.28
"""And this share of the way along it, clear of the numbers of bends."""
_SLANT = 0.25
"""The straight from A to B is drawn where it goes off both other lines by this share of it."""
_WORTH = 12.0
"""A shorter line has no value written on it [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """What is drawn, its lower left corner at the origin, its size on paper [mm], and its scale."""

    items: tuple[Mark, ...]
    width: float
    height: float
    scale: int


def sketch(
    path: Path, marks: Sequence[BendMark], names: tuple[str, str], room: tuple[float, float], units: Units | None
) -> Sketch:
    """Draw a flat centreline with the marks of its bends and its ends' names, as large as there is room [mm].

    Its first straight stands up, or lies where that is larger. Chalk lines are drawn where `units` are given.
    """
    first, up = path.bends[0][1], path.bends[0][1].start_tangent
    toward = first.inward.cross(up)
    views = (View(to_viewer=toward, right=first.inward), View(to_viewer=toward, right=up))
    return min((_largest(_Bent(path, tuple(marks), names), view, room, units) for view in views), key=lambda s: s.scale)


class _Bent(NamedTuple):
    """What is sketched: a centreline, its bends' marks, its ends' names."""

    path: Path
    marks: tuple[BendMark, ...]
    names: tuple[str, str]


def _largest(bent: _Bent, view: View, room: tuple[float, float], units: Units | None) -> Sketch:
    found = (_sketched(_Paper(view, scale), bent, units) for scale in _SCALES)
    fitting = next((s for s in found if s.width <= room[0] and s.height <= room[1]), None)
    return fitting or _sketched(_Paper(view, _SCALES[-1]), bent, units)


def _sketched(paper: _Paper, bent: _Bent, units: Units | None) -> Sketch:
    items: list[Mark] = [i.placed(paper.to) for i in centreline(bent.path, paper.view, Pen.WIDE)]
    for mark, (_, bend) in zip(bent.marks, bent.path.bends, strict=True):
        items += paper.mark(mark, bend)
    items += paper.ends(bent)
    items += paper.chalk_lines(bent.path, units) if units is not None else []
    box = box_of(items)
    to = Transform(shift=(-box[0], -box[1]))
    width, height = size_of(box)
    return Sketch(items=tuple(i.placed(to) for i in items), width=width, height=height, scale=paper.scale)


class _Paper:
    """A view at a scale."""

    def __init__(self, view: View, scale: int) -> None:
        self.view = view
        self.scale = scale
        self.to = Transform(scale=1.0 / scale)

    def point(self, at: Vec, way: Vec | None = None, off: float = 0.0) -> Point:
        """Return where a point is on paper, moved along a direction [mm]."""
        x, y = self.to.point(self.view.project(at))
        dx, dy = self.view.project(way) if way else (0.0, 0.0)
        return (x + dx * off, y + dy * off)

    def mark(self, mark: BendMark, bend: Arc) -> Iterator[Mark]:
        """Draw a line across the tube where a mark is, its number on the inside of the bend."""
        at, inward = bend.start, bend.inward
        if mark.at > mark.start + bend.length / 2.0:
            at, inward = bend.end, (bend.centre - bend.end).unit
        yield strokes(Pen.NARROW, ((self.point(at, inward, -_TICK), self.point(at, inward, _TICK)),))
        yield _text(str(mark.number), self.point(at, inward, _NUMBER), SMALL, bold=True)

    def ends(self, bent: _Bent) -> Iterator[Mark]:
        """Name the ends that have names."""
        path = bent.path
        ways = ((path.start, -path.tangent(0.0)), (path.end, path.tangent(path.length)))
        for name, (at, way) in zip(bent.names, ways, strict=True):
            if name:
                yield _text(name, self.point(at, way, _END), BODY, bold=True)

    def chalk_lines(self, path: Path, units: Units) -> Iterator[Mark]:
        """Draw the line of end A's straight, end B off it, and the straight from A to B."""
        way, gap = path.tangent(0.0), path.end - path.start
        foot = path.start + way * gap.dot(way)
        lines = [(path.start, foot, _NEAR), (foot, path.end, _NEAR)]
        if all(a.distance(b) > _SLANT * gap.length for a, b, _ in lines):
            lines.append((path.start, path.end, 0.5))
        middle = self.point(path.point(path.length / 2.0))
        for start, end, share in lines:
            a, b = self.point(start), self.point(end)
            length = math.dist(a, b)
            if length > 1.0:
                yield strokes(Pen.HIDDEN, ((a, b),))
            if length > _WORTH:
                yield _value((a, b), share, middle, format_length(start.distance(end), units))


def _value(line: Segment, share: float, middle: Point, text: str) -> Text:
    """Write a value beside a line, on the side away from the middle of the tube, to be read from below or the right.

    Along a level or an upright line; beside a slanting one it stands level.
    """
    (ax, ay), (bx, by) = line
    x, y = ax + (bx - ax) * share, ay + (by - ay) * share
    angle = math.atan2(by - ay, bx - ax)
    across = (-math.sin(angle), math.cos(angle))
    side = -1.0 if (middle[0] - x) * across[0] + (middle[1] - y) * across[1] > 0.0 else 1.0
    turned = (math.degrees(angle) + 90.0) % 180.0 - 90.0
    off = _BESIDE
    if min(abs(turned), 90.0 - abs(turned)) > _ALONG_DEG:
        turned = 0.0
        off += abs(across[0]) * text_width(text, SMALL) / 2.0
    return _text(text, (x + across[0] * side * off, y + across[1] * side * off), SMALL, turned=turned)


def _text(text: str, at: Point, height: float, *, bold: bool = False, turned: float = 0.0) -> Text:
    return Text(at=at, text=text, height=height, anchor=Anchor.CENTRE, level=Level.MIDDLE, bold=bold, angle_deg=turned)
