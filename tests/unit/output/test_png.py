from __future__ import annotations

import io
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.image import imread

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Level, Mark, Text, strokes
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.sheet import Sheet
from tubeframe.drawing.shapes import circle
from tubeframe.output.png import write_png

if TYPE_CHECKING:
    from collections.abc import Sequence

DPI = 254.0
"""Ten dots a millimetre."""


def picture(items: Sequence[Mark]) -> np.ndarray:
    """Grey values by x and y in tenths of a millimetre from the lower left corner."""
    target = io.BytesIO()
    write_png(Sheet(width=100.0, height=60.0, title="", items=tuple(items)), target, dpi=DPI)
    assert not target.closed
    target.seek(0)
    pixels = imread(target)
    assert (pixels[:, :, 3] == 1.0).all()
    return pixels[::-1, :, 0].T


def test_a_sheet_is_white_and_as_large_as_it_says() -> None:
    grey = picture(())
    assert grey.shape == (1000, 600)
    assert (grey == 1.0).all()


def test_a_line_is_where_it_should_be_and_as_wide() -> None:
    grey = picture([strokes(Pen.WIDE, (((10.0, 20.0), (90.0, 20.0)),))])
    ink = 1.0 - grey
    assert abs(ink[500].sum() - 5.0) < 0.1
    assert abs((ink[500] * (np.arange(600) + 0.5)).sum() / ink[500].sum() - 200.0) < 0.1
    assert ink[90].sum() == 0.0


def test_later_items_cover_earlier_ones() -> None:
    line = strokes(Pen.WIDE, (((10.0, 20.0), (90.0, 20.0)),))
    balloon = Drawn(shape=circle((50.0, 20.0), 5.0), pen=Pen.NARROW, fill=Fill.WHITE)
    assert picture([line, balloon])[500, 200] == 1.0
    assert picture([balloon, line])[500, 200] == 0.0
    assert picture([line, balloon, line])[500, 200] == 0.0
    light = Drawn(shape=circle((50.0, 20.0), 5.0), pen=None, fill=Fill.LIGHT)
    assert abs(picture([line, light])[500, 200] - 0.9) < 0.01


def test_a_text_has_its_height_and_place() -> None:
    for angle in (0.0, 90.0):
        text = Text(at=(50.0, 30.0), text="HIH", height=10.0, anchor=Anchor.CENTRE, level=Level.MIDDLE, angle_deg=angle)
        x, y = np.nonzero(picture([text]) < 0.5)
        wide, high = (text_width("HIH", 10.0), 10.0) if angle == 0.0 else (10.0, text_width("HIH", 10.0))
        assert abs((x.max() + x.min() + 1) / 20.0 - 50.0) < 0.15
        assert abs((y.max() + y.min() + 1) / 20.0 - 30.0) < 0.15
        # the letters' own space on both sides is 201 of 1493 units
        beside = 2.0 * 201.0 / 1493.0 * 10.0
        expected = (wide - beside, high) if angle == 0.0 else (wide, high - beside)
        assert abs((x.max() - x.min() + 1) / 10.0 - expected[0]) < 0.25
        assert abs((y.max() - y.min() + 1) / 10.0 - expected[1]) < 0.25
