"""Frame and title block of a drawing, in model space: true lengths times the scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe._version import __version__
from tubeframe.drawing.picture import Layer, Note, PictureItem, Point, Ring, Segment, Strokes
from tubeframe.drawing.sheet import Anchor
from tubeframe.fabrication.cautions import SHORT_LIMIT
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from tubeframe.design import Design

BORDER = 10.0
TITLE_HEIGHT, _WIDTH = 32.0, 180.0
_ROW = 8.0
_LABEL, _VALUE, _TITLE = 2.5, 3.5, 5.0
"""Cap heights [mm on paper] (ISO 3098, from memory); fields of ISO 7200, 180 mm wide (from memory)."""


def frame_and_title(design: Design, sheet: tuple[float, float], scale: int, corner: Point) -> list[PictureItem]:
    """Draw the sheet's frame and the title block at its lower right; `corner` is the sheet's lower left [mm]."""
    draw = _Ground(scale=scale, corner=corner)
    left, bottom, right, top = BORDER + 10.0, BORDER, sheet[0] - BORDER, sheet[1] - BORDER
    items: list[PictureItem] = [draw.lines(_box(left, bottom, right, top))]
    x = right - _WIDTH
    rows = [bottom + _ROW * k for k in range(5)]
    lines = [((x, y), (right, y)) for y in rows[1:]] + [((x, bottom), (x, rows[4]))]
    lines += [((x + w, rows[0]), (x + w, rows[3])) for w in (60.0, 120.0)]
    items.append(draw.lines(lines))
    inch = design.workshop.units is Units.INCH
    cells = [
        (x, rows[3], "title", f"{design.frame.name}, {_sizes(design)}", _TITLE),
        (x, rows[2], "scale", f"1:{scale}", _VALUE),
        (x + 60.0, rows[2], "unit", "inch" if inch else "millimetre", _VALUE),
        (x + 120.0, rows[2], "sheet", "1/1", _VALUE),
        (x, rows[1], "owner", "-", _VALUE),
        (x + 60.0, rows[1], "creator", f"tubeframe {__version__}", _VALUE),
        (x + 120.0, rows[1], "approved", "-", _VALUE),
        (x, rows[0], "identification", design.source.template, _VALUE),
        (x + 60.0, rows[0], "date of issue", "-", _VALUE),
        (x + 120.0, rows[0], "tolerance", '1/16"' if inch else "1 mm", _VALUE),
    ]
    for cx, cy, label, value, height in cells:
        items.append(draw.note((cx + 1.5, cy + _ROW - 3.2), label, _LABEL))
        items.append(
            draw.note((cx + 58.0 if height != _TITLE else cx + 26.0, cy + 1.4), value, height, right=height != _TITLE)
        )
    items.append(draw.note((left + 2.0, bottom + 2.5), SHORT_LIMIT, _LABEL))
    items += _projection(draw, x - 26.0, bottom + 18.0, third=inch)
    return items


class _Ground:
    """Turns lengths on paper into true ones."""

    def __init__(self, *, scale: int, corner: Point) -> None:
        self._scale = scale
        self._corner = corner

    def at(self, p: Point) -> Point:
        return (self._corner[0] + p[0] * self._scale, self._corner[1] + p[1] * self._scale)

    def lines(self, segments: list[Segment]) -> Strokes:
        return Strokes(layer=Layer.BORDER, segments=tuple((self.at(a), self.at(b)) for a, b in segments))

    def note(self, at: Point, text: str, height: float, *, right: bool = False) -> Note:
        anchor = Anchor.RIGHT if right else Anchor.LEFT
        return Note(layer=Layer.TEXT, at=self.at(at), text=text, height=height * self._scale, anchor=anchor)

    def ring(self, at: Point, radius: float) -> Ring:
        return Ring(layer=Layer.BORDER, centre=self.at(at), radius=radius * self._scale)


def _box(left: float, bottom: float, right: float, top: float) -> list[Segment]:
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return [(corners[k], corners[(k + 1) % 4]) for k in range(4)]


def _sizes(design: Design) -> str:
    values = [str(v) for k, v in design.source.parameters.items() if k in {"width", "length", "height"}]
    return " x ".join(values)


def _projection(draw: _Ground, x: float, y: float, *, third: bool) -> list[PictureItem]:
    """Draw the truncated cone of the projection: the circles stand at its small end in third angle, else at the large.

    ISO 5456-2, from memory. The cone's small end points left.
    """
    small, large, length, gap = 2.5, 5.0, 9.0, 8.0
    cone = [((x, y - small), (x, y + small)), ((x + length, y - large), (x + length, y + large))]
    cone += [((x, y + small), (x + length, y + large)), ((x, y - small), (x + length, y - large))]
    rings_x = x - gap if third else x + length + gap
    items: list[PictureItem] = [draw.lines(cone), draw.ring((rings_x, y), small), draw.ring((rings_x, y), large)]
    items.append(draw.note((x - 6.0, y - 10.0), "third angle" if third else "first angle", _LABEL))
    return items
