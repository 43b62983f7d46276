"""Frame and title block of a drawing, in model space: true lengths times the scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe._version import __version__
from tubeframe.catalog.drafting import Projection
from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.picture import Layer, Note, PictureItem, Point, Ring, Segment, Strokes
from tubeframe.drawing.model.sheet import Anchor
from tubeframe.fabrication.cautions import SHORT_LIMIT
from tubeframe.geometry.units import Units, format_exact

if TYPE_CHECKING:
    from tubeframe.design import Design

BORDER = 10.0
TITLE_HEIGHT, _WIDTH = 32.0, 180.0
_ROW, _CELL = 8.0, 60.0
_LABEL, _VALUE, _TITLE = 2.5, 3.5, 5.0
"""Cap heights [mm on paper] (ISO 3098, from memory); fields of ISO 7200, 180 mm wide (from memory)."""
_LEADING, _NOTES_WIDTH, _MOST_ROWS = 4.0, 160.0, 3


def frame_and_title(design: Design, sheet: tuple[float, float], scale: int, corner: Point) -> list[PictureItem]:
    """Draw the sheet's frame, the title block and notes at its foot; `corner` is the sheet's lower left [mm]."""
    draw = _Ground(scale=scale, corner=corner)
    left, bottom, right, top = BORDER + 10.0, BORDER, sheet[0] - BORDER, sheet[1] - BORDER
    x = right - _WIDTH
    items: list[PictureItem] = [draw.lines(_box(left, bottom, right, top)), draw.lines(_grid(x, bottom, right))]
    items += _title(draw, design, (x, bottom + 3.0 * _ROW))
    for column, row, label, value in _cells(design, scale):
        items += _cell(draw, (x + column * _CELL, bottom + row * _ROW), label, value)
    items += _notes(draw, design, (left + 2.0, bottom + 2.5))
    return items + _projection(
        draw, x - 26.0, bottom + 18.0, third=design.workshop.drafting.projection is Projection.THIRD
    )


def _cells(design: Design, scale: int) -> tuple[tuple[int, int, str, str], ...]:
    """Return column and row from the lower left, label and value of each cell."""
    inch = design.workshop.units is Units.INCH
    return (
        (0, 2, "scale", f"1:{scale}"),
        (1, 2, "dimensions in", "inches" if inch else "millimetres"),
        (2, 2, "sheet", "1/1"),
        (0, 1, "owner", "-"),
        (1, 1, "creator", f"tubeframe {__version__}"),
        (2, 1, "approved", "-"),
        (0, 0, "identification", design.source.template),
        (1, 0, "date of issue", "-"),
        (2, 0, "document", "elevations"),
    )


def _notes(draw: _Ground, design: Design, at: Point) -> list[PictureItem]:
    """Write what holds for the whole sheet, from below up."""
    catalog = design.workshop.catalog
    inch = design.workshop.units is Units.INCH
    step = "1/16 in" if inch else "1 mm"
    sizes = dict.fromkeys(p.size for p in design.parts.pieces)
    tubes = ", ".join(f"{s}: {format_exact(catalog.tube(s).outside, design.workshop.units)}" for s in sizes)
    texts = (
        f"Tubes, outside diameter: {tubes}.",
        f"Dimensions are rounded to the nearest {step}.",
        f"Cut lengths and clamp positions hold within {step}.",
        SHORT_LIMIT,
    )
    rows = [*_drawn_from(design), *(row for text in texts for row in wrap(text, _NOTES_WIDTH, _LABEL))]
    return [draw.note((at[0], at[1] + n * _LEADING), row, _LABEL) for n, row in enumerate(reversed(rows))]


def _drawn_from(design: Design) -> tuple[str, ...]:
    """Say what the drawing was made from; a long list of parameters ends in dots."""
    parameters = ", ".join(f"{k} {v}" for k, v in design.source.parameters.items())
    text = f"Drawn from {design.source.template}{': ' if parameters else ''}{parameters}."
    rows = wrap(text, _NOTES_WIDTH, _LABEL)
    return rows if len(rows) <= _MOST_ROWS else (*rows[: _MOST_ROWS - 1], f"{rows[_MOST_ROWS - 1]} ...")


def _grid(x: float, bottom: float, right: float) -> list[Segment]:
    rows = [bottom + _ROW * k for k in range(5)]
    lines = [((x, y), (right, y)) for y in rows[1:]] + [((x, bottom), (x, rows[4]))]
    return lines + [((x + w, rows[0]), (x + w, rows[3])) for w in (_CELL, 2.0 * _CELL)]


def _title(draw: _Ground, design: Design, at: Point) -> list[PictureItem]:
    """Write the title: a name and the asked sizes, as large as they fit."""
    text = f"{design.frame.name}{_sizes(design)}"
    room = _WIDTH - 16.0
    height = next((h for h in (_TITLE, _VALUE) if text_width(text, h) <= room), _LABEL)
    label = draw.note((at[0] + 1.5, at[1] + _ROW - 3.2), "title", _LABEL)
    return [label, draw.note((at[0] + 14.0, at[1] + 1.4), text, height)]


def _cell(draw: _Ground, at: Point, label: str, value: str) -> list[PictureItem]:
    height = next((h for h in (_VALUE, _LABEL) if text_width(value, h) <= _CELL - 4.0), _LABEL)
    return [
        draw.note((at[0] + 1.5, at[1] + _ROW - 3.2), label, _LABEL),
        draw.note((at[0] + _CELL - 2.0, at[1] + 1.2), value, height, right=True),
    ]


class _Ground:
    """Turns lengths on paper into true ones."""

    def __init__(self, *, scale: int, corner: Point) -> None:
        self._scale = scale
        self._corner = corner

    def at(self, p: Point) -> Point:
        return (self._corner[0] + p[0] * self._scale, self._corner[1] + p[1] * self._scale)

    def lines(self, segments: list[Segment], *, layer: Layer = Layer.BORDER) -> Strokes:
        return Strokes(layer=layer, segments=tuple((self.at(a), self.at(b)) for a, b in segments))

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
    return f", {' x '.join(values)}" if values else ""


def _projection(draw: _Ground, x: float, y: float, *, third: bool) -> list[PictureItem]:
    """Draw the truncated cone of the projection: the circles stand at its small end in third angle, else at the large.

    ISO 5456-2, from memory. The cone's small end points left.
    """
    small, large, length, gap = 2.5, 5.0, 9.0, 8.0
    cone = [((x, y - small), (x, y + small)), ((x + length, y - large), (x + length, y + large))]
    cone += [((x, y + small), (x + length, y + large)), ((x, y - small), (x + length, y - large))]
    rings_x = x - gap if third else x + length + gap
    middles = [((x - 1.5, y), (x + length + 1.5, y)), ((rings_x - large - 1.5, y), (rings_x + large + 1.5, y))]
    middles.append(((rings_x, y - large - 1.5), (rings_x, y + large + 1.5)))
    text = "third angle" if third else "first angle"
    return [
        draw.lines(cone),
        draw.lines(middles, layer=Layer.CENTER),
        draw.ring((rings_x, y), small),
        draw.ring((rings_x, y), large),
        draw.note(((x + length + rings_x) / 2.0 - 8.0, y - 11.0), text, _LABEL),
    ]
