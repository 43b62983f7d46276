"""How a dimension is drawn. Numbers are those of ISO 129-1, from memory."""

from __future__ import annotations

import pytest

from tubeframe.drawing.model.dimension import Dimension, value_width
from tubeframe.drawing.shapes.plane import Axis

SCALE = 10


def _level(length, text="100", **more):
    return Dimension(
        axis=Axis.HORIZONTAL, start=(0.0, 50.0), end=(length, 0.0), line_at=-100.0, text=text, scale=SCALE, **more
    )


def test_extension_lines_leave_a_gap_and_run_past():
    """A gap of 1.5 mm off what is held, 2 mm past the line; times the scale."""
    extensions = _level(1000.0).segments[:2]

    assert extensions == (((0.0, 35.0), (0.0, -120.0)), ((1000.0, -15.0), (1000.0, -120.0)))


def test_arrows_point_outward_from_inside_where_there_is_room():
    drawn = _level(1000.0)

    assert [a[0] for a in drawn.arrows] == [(0.0, -100.0), (1000.0, -100.0)]
    assert [a[1][0] for a in drawn.arrows] == [25.0, 975.0]
    assert drawn.segments[-1] == ((0.0, -100.0), (1000.0, -100.0))


def test_arrows_stand_outside_a_narrow_one():
    """Narrower than three arrows of 2.5 mm: here 5 mm on paper. The line runs on under them."""
    drawn = _level(50.0, text="5", text_along=25.0)

    assert [a[1][0] for a in drawn.arrows] == [-25.0, 75.0]
    assert drawn.segments[-1][0][0] <= -25.0
    assert drawn.segments[-1][1][0] >= 75.0


def test_a_value_outside_stands_on_its_line():
    text = '34 7/8"'
    middle = 300.0
    drawn = _level(100.0, text=text, text_along=middle)

    assert drawn.segments[-1][1][0] == pytest.approx(middle + value_width(text, SCALE) / 2.0)
    assert drawn.value.at == (middle, -100.0 + 0.9 * SCALE)


def test_an_upright_value_is_read_from_the_right():
    dimension = Dimension(
        axis=Axis.VERTICAL, start=(0.0, 0.0), end=(0.0, 800.0), line_at=-200.0, text="800", scale=SCALE
    )
    drawn = dimension

    assert drawn.value.angle_deg == 90.0
    assert drawn.value.at == (-200.0 - 0.9 * SCALE, 400.0)
    assert drawn.segments[:2] == (((-15.0, 0.0), (-220.0, 0.0)), ((-15.0, 800.0), (-220.0, 800.0)))


def test_a_dimension_on_the_right_runs_to_the_right():
    dimension = Dimension(
        axis=Axis.VERTICAL, start=(0.0, 0.0), end=(0.0, 800.0), line_at=200.0, text="800", scale=SCALE
    )

    assert dimension.segments[0] == ((15.0, 0.0), (220.0, 0.0))
