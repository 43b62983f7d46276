from __future__ import annotations

import pytest

from tubeframe.drawing.model.pens import FILL_GREYS, PEN_STYLES, Fill, Pen

SERIES = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
"""Line widths of ISO 128-2 [mm] (from memory)."""


def test_every_pen_and_fill_has_a_look() -> None:
    assert set(PEN_STYLES) == set(Pen)
    assert set(FILL_GREYS) == set(Fill)


def test_widths_are_of_the_series_and_wide_is_twice_narrow() -> None:
    assert all(style.width in SERIES for style in PEN_STYLES.values())
    assert PEN_STYLES[Pen.WIDE].width == 2.0 * PEN_STYLES[Pen.NARROW].width


@pytest.mark.parametrize(
    ("pen", "in_widths"),
    [
        (Pen.HIDDEN, (12.0, 3.0)),
        (Pen.CENTRE, (24.0, 3.0, 0.5, 3.0)),
    ],
)
def test_dashes_are_those_of_the_standard(pen: Pen, in_widths: tuple[float, ...]) -> None:
    """ISO 128-2, line types 02 and 04, in line widths (from memory)."""
    style = PEN_STYLES[pen]
    assert style.dashes == pytest.approx([style.width * n for n in in_widths])


def test_light_is_light_enough_to_read_black_on() -> None:
    assert FILL_GREYS[Fill.LIGHT] >= 0.85
    assert FILL_GREYS[Fill.BLACK] == 0.0
    assert FILL_GREYS[Fill.WHITE] == 1.0
