"""Frame and title block of a drawing, on paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe._version import __version__
from tubeframe.catalog.drafting import Projection
from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import circle
from tubeframe.geometry.units import Units, format_exact
from tubeframe.words.cautions import SHORT_LIMIT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.design import Source
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point, Segment

BORDER = 10.0
TITLE_HEIGHT, _WIDTH = 32.0, 180.0
_ROW, _CELL = 8.0, 60.0
_LABEL, _VALUE, _TITLE = 2.5, 3.5, 5.0
"""Cap heights [mm on paper] (ISO 3098, from memory); fields of ISO 7200, 180 mm wide (from memory)."""
_LEADING, _NOTES_WIDTH, _MOST_ROWS = 4.0, 160.0, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """What a title block says: a name, what it was made from, and each size of tube with its outside diameter [mm]."""

    name: str
    source: Source
    units: Units
    projection: Projection
    outsides: tuple[tuple[str, float], ...]


def frame_and_title(
    title: TitleBlock, sheet: tuple[float, float], scale: int, unseen: Sequence[str] = ()
) -> list[Mark]:
    """Draw the sheet's frame, the title block and notes at its foot, on a paper of a size [mm].

    `unseen` are marks that no view shows.
    """
    left, bottom, right, top = BORDER + 10.0, BORDER, sheet[0] - BORDER, sheet[1] - BORDER
    x = right - _WIDTH
    items: list[Mark] = [
        strokes(Pen.BORDER, _box(left, bottom, right, top)),
        strokes(Pen.BORDER, _grid(x, bottom, right)),
    ]
    items += _title(title, (x, bottom + 3.0 * _ROW))
    for column, row, label, value in _cells(title, scale):
        items += _cell((x + column * _CELL, bottom + row * _ROW), label, value)
    items += _notes(title, unseen, (left + 2.0, bottom + 2.5))
    return items + _projection(x - 26.0, bottom + 18.0, third=title.projection is Projection.THIRD)


def _cells(title: TitleBlock, scale: int) -> tuple[tuple[int, int, str, str], ...]:
    """Return column and row from the lower left, label and value of each cell."""
    inch = title.units is Units.INCH
    return (
        (0, 2, "scale", f"1:{scale}"),
        (1, 2, "dimensions in", "inches" if inch else "millimetres"),
        (2, 2, "sheet", "1/1"),
        (0, 1, "owner", "-"),
        (1, 1, "creator", f"tubeframe {__version__}"),
        (2, 1, "approved", "-"),
        (0, 0, "identification", title.source.template),
        (1, 0, "date of issue", "-"),
        (2, 0, "document", "elevations"),
    )


def _notes(title: TitleBlock, unseen: Sequence[str], at: Point) -> list[Mark]:
    """Write what holds for the whole sheet, from below up."""
    inch = title.units is Units.INCH
    step = "1/16 in" if inch else "1 mm"
    tubes = ", ".join(f"{s}: {format_exact(outside, title.units)}" for s, outside in title.outsides)
    texts = [
        f"Tubes, outside diameter: {tubes}.",
        f"Dimensions are rounded to the nearest {step}.",
        f"Cut lengths and clamp positions hold within {step}.",
        SHORT_LIMIT,
    ]
    if unseen:
        texts.insert(0, f"Hidden in all views: {', '.join(unseen)}.")
    made_from = _drawn_from(title, _MOST_ROWS - bool(unseen))
    rows = [*made_from, *(row for text in texts for row in wrap(text, _NOTES_WIDTH, _LABEL))]
    return [_note((at[0], at[1] + n * _LEADING), row, _LABEL) for n, row in enumerate(reversed(rows))]


def _drawn_from(title: TitleBlock, most: int) -> tuple[str, ...]:
    """Say what the drawing was made from; a long list of parameters ends in dots."""
    parameters = ", ".join(f"{k} {v}" for k, v in title.source.parameters.items())
    text = f"Drawn from {title.source.template}{': ' if parameters else ''}{parameters}."
    rows = wrap(text, _NOTES_WIDTH, _LABEL)
    return rows if len(rows) <= most else (*rows[: most - 1], f"{rows[most - 1]} ...")


def _grid(x: float, bottom: float, right: float) -> list[Segment]:
    rows = [bottom + _ROW * k for k in range(5)]
    lines = [((x, y), (right, y)) for y in rows[1:]] + [((x, bottom), (x, rows[4]))]
    return lines + [((x + w, rows[0]), (x + w, rows[3])) for w in (_CELL, 2.0 * _CELL)]


def _title(title: TitleBlock, at: Point) -> list[Mark]:
    """Write the title: a name and the asked sizes, as large as they fit."""
    text = f"{title.name}{_sizes(title)}"
    room = _WIDTH - 16.0
    height = next((h for h in (_TITLE, _VALUE) if text_width(text, h) <= room), _LABEL)
    label = _note((at[0] + 1.5, at[1] + _ROW - 3.2), "title", _LABEL)
    return [label, _note((at[0] + 14.0, at[1] + 1.4), text, height)]


def _cell(at: Point, label: str, value: str) -> list[Mark]:
    height = next((h for h in (_VALUE, _LABEL) if text_width(value, h) <= _CELL - 4.0), _LABEL)
    return [
        _note((at[0] + 1.5, at[1] + _ROW - 3.2), label, _LABEL),
        _note((at[0] + _CELL - 2.0, at[1] + 1.2), value, height, right=True),
    ]


def _note(at: Point, text: str, height: float, *, right: bool = False) -> Text:
    return Text(at=at, text=text, height=height, anchor=Anchor.RIGHT if right else Anchor.LEFT)


def _box(left: float, bottom: float, right: float, top: float) -> list[Segment]:
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return [(corners[k], corners[(k + 1) % 4]) for k in range(4)]


def _sizes(title: TitleBlock) -> str:
    values = [str(v) for k, v in title.source.parameters.items() if k in {"width", "length", "height"}]
    return f", {' x '.join(values)}" if values else ""


def _projection(x: float, y: float, *, third: bool) -> list[Mark]:
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
        strokes(Pen.BORDER, cone),
        strokes(Pen.CENTRE, middles),
        Drawn(shape=circle((rings_x, y), small), pen=Pen.BORDER),
        Drawn(shape=circle((rings_x, y), large), pen=Pen.BORDER),
        _note(((x + length + rings_x) / 2.0 - 8.0, y - 11.0), text, _LABEL),
    ]
