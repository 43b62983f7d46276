"""Sheets as matplotlib figures: no axes, no layout, one artist that paints the items of a sheet in their order.

Consecutive lines of one pen are put into one compound path, since a call for each line is what makes drawing slow.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

import matplotlib as mpl
import numpy as np
from matplotlib.artist import Artist
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.text import Text as FigureText
from matplotlib.transforms import Affine2D

from tubeframe.drawing.model.font_metrics import em_size
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import FILL_GREYS, PEN_STYLES
from tubeframe.drawing.shapes import Arc, Area, Curve, Ellipse, Lines
from tubeframe.errors import printable

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from matplotlib.backend_bases import RendererBase
    from numpy.typing import NDArray

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.pens import Fill, PenStyle
    from tubeframe.drawing.model.sheet import Sheet
    from tubeframe.drawing.shapes import Shape

    Floats = NDArray[np.float64]

MM_PER_INCH = 25.4
_POINTS_PER_MM = 72.0 / MM_PER_INCH
_DECIMALS = 2
"""Coordinates are rounded to 0.01 point, 3.5 micrometres."""
_UNSHAPED = ("-kern", "-liga", "-clig")
"""Signs stand side by side without kerning or ligatures, as `text_width` reckons, and can be searched for."""


def figure_of(sheet: Sheet, *, dpi: float, background: bool) -> Figure:
    """Return a figure as large as the sheet; with a background it is painted white first."""
    size = (sheet.width / MM_PER_INCH, sheet.height / MM_PER_INCH)
    figure = Figure(figsize=size, dpi=dpi, frameon=background, facecolor="white", edgecolor="none")
    figure.add_artist(_Painting(sheet))
    return figure


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stroke:
    """A path in points, to be drawn with a pen and filled."""

    path: Path
    pen: PenStyle | None
    fill: Fill | None


class _Painting(Artist):
    """Everything on one sheet."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._marks = tuple(_marks(sheet.items))
        self._unshaped = FigureText()
        self._unshaped.set_fontfeatures(_UNSHAPED)

    def draw(self, renderer: RendererBase) -> None:
        """Paint all items in their order."""
        figure = self.get_figure(root=True)
        scale = figure.dpi / 72.0 if isinstance(figure, Figure) else 1.0
        for mark in self._marks:
            if isinstance(mark, Text):
                _write(renderer, mark, scale, self._unshaped)
            else:
                _stroke(renderer, mark, scale)


def _stroke(renderer: RendererBase, stroke: _Stroke, scale: float) -> None:
    gc = renderer.new_gc()
    gc.set_foreground("black")
    gc.set_snap(False)
    gc.set_joinstyle("round")
    gc.set_linewidth(0.0)
    if stroke.pen is not None:
        style = stroke.pen
        # widths and dashes are in points; the renderer scales them
        gc.set_linewidth(style.width * _POINTS_PER_MM)
        # a round cap would lengthen dashes and dots
        gc.set_capstyle("butt" if style.dashes else "round")
        if style.dashes:
            gc.set_dashes(0.0, [length * _POINTS_PER_MM for length in style.dashes])
    face = None if stroke.fill is None else (FILL_GREYS[stroke.fill],) * 3
    renderer.draw_path(gc, stroke.path, Affine2D().scale(scale), face)
    gc.restore()


def _write(renderer: RendererBase, text: Text, scale: float, unshaped: FigureText) -> None:
    x, y = (value * _POINTS_PER_MM * scale for value in text.start)
    if renderer.flipy():
        y = renderer.get_canvas_width_height()[1] - y
    gc = renderer.new_gc()
    gc.set_foreground("black")
    renderer.draw_text(
        gc, x, y, printable(text.text), _font(text.height, bold=text.bold), text.angle_deg, mtext=unshaped
    )
    gc.restore()


def _font(cap_height: float, *, bold: bool) -> FontProperties:
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    path = FilePath(mpl.get_data_path()) / "fonts" / "ttf" / name
    return FontProperties(fname=path, size=em_size(cap_height) * _POINTS_PER_MM)


def _marks(items: Sequence[Mark]) -> Iterable[_Stroke | Text]:
    """Put neighbouring lines of one look together; filled areas and texts stay apart, since they cover each other."""
    for pen, run in itertools.groupby(items, key=_merge_key):
        if pen is not None:
            yield _Stroke(path=_path([_outline(i.shape) for i in run if isinstance(i, Drawn)]), pen=pen, fill=None)
            continue
        for item in run:
            if isinstance(item, Text):
                yield item
            else:
                pen = None if item.pen is None else PEN_STYLES[item.pen]
                yield _Stroke(path=_path([_outline(item.shape)]), pen=pen, fill=item.fill)


def _merge_key(item: Mark) -> PenStyle | None:
    """Return how lines look that may be drawn together with others; None for a text and for what is filled."""
    if isinstance(item, Text) or item.fill is not None or item.pen is None:
        return None
    return PEN_STYLES[item.pen]


def _path(outlines: Sequence[tuple[Floats, NDArray[np.uint8]]]) -> Path:
    """Return one path of several outlines given in mm."""
    points = np.concatenate([points for points, _ in outlines]) * _POINTS_PER_MM
    path = Path(np.round(points, _DECIMALS), np.concatenate([codes for _, codes in outlines]))
    path.should_simplify = False
    return path


def _outline(shape: Shape) -> tuple[Floats, NDArray[np.uint8]]:
    """Return the points [mm] of a shape and what the path does at each."""
    match shape:
        case Lines():
            return _chained(np.array(shape.segments, dtype=float).reshape(-1, 2, 2))
        case Area():
            return _closed(np.array(shape.corners, dtype=float), _codes(len(shape.corners), Path.LINETO))
        case Curve():
            return np.array(shape.control, dtype=float), _codes(len(shape.control), Path.CURVE4)
        case Arc() | Ellipse():
            points, codes = _outline(shape.cubic())
            return _closed(points, codes) if shape.closed else (points, codes)


def _closed(points: Floats, codes: NDArray[np.uint8]) -> tuple[Floats, NDArray[np.uint8]]:
    return np.concatenate([points, points[:1]]), np.append(codes, np.uint8(Path.CLOSEPOLY))


def _chained(segments: Floats) -> tuple[Floats, NDArray[np.uint8]]:
    """Draw segments (n, 2, 2) in as few strokes as they are in already: one goes on where the last one ended."""
    begins = np.ones(len(segments), dtype=bool)
    gap = np.abs(segments[1:, 0] - segments[:-1, 1]).max(axis=1, initial=0.0)
    begins[1:] = gap > 0.5 * 10.0**-_DECIMALS / _POINTS_PER_MM
    kept = np.stack([begins, np.ones(len(segments), dtype=bool)], axis=1).ravel()
    codes = np.tile(np.array([Path.MOVETO, Path.LINETO], dtype=np.uint8), len(segments))
    return segments.reshape(-1, 2)[kept], codes[kept]


def _codes(count: int, following: np.uint8) -> NDArray[np.uint8]:
    codes = np.full(count, following, dtype=np.uint8)
    codes[0] = Path.MOVETO
    return codes
