"""Items of a picture: moved in the plane, and the room they take."""

from __future__ import annotations

import pytest

from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes import Arc, circle
from tubeframe.drawing.shapes.plane import Axis, moved

LEVEL = Dimension(axis=Axis.HORIZONTAL, start=(5.0, 1.0), end=(2.0, 0.0), line_at=-10.0, text="3", scale=2)
UPRIGHT = Dimension(
    axis=Axis.VERTICAL, start=(0.0, 1.0), end=(0.0, 4.0), line_at=-7.0, text="3", text_along=9.0, scale=2
)


def test_a_dimension_measures_along_its_axis_alone():
    assert (LEVEL.span, LEVEL.length, LEVEL.text_middle) == ((2.0, 5.0), 3.0, 3.5)
    assert (UPRIGHT.span, UPRIGHT.length, UPRIGHT.text_middle) == ((1.0, 4.0), 3.0, 9.0)


def test_moving_a_dimension_moves_its_line_across_and_its_value_along():
    level, upright = LEVEL.placed(moved((100.0, 200.0))), UPRIGHT.placed(moved((100.0, 200.0)))

    assert (level.start, level.line_at, level.text_along) == ((105.0, 201.0), 190.0, None)
    assert (upright.end, upright.line_at, upright.text_along) == ((100.0, 204.0), 93.0, 209.0)


@pytest.mark.parametrize(
    "item",
    [
        strokes(Pen.TUBE, (((0.0, 0.0), (3.0, 1.0)), ((1.0, -2.0), (2.0, 2.0)))),
        Drawn(shape=Arc(centre=(1.0, 1.0), radius=2.0, start_deg=350.0, end_deg=460.0), pen=Pen.TUBE),
        Drawn(shape=circle((1.0, 1.0), 2.0), pen=Pen.BALLOON),
        Text(at=(1.0, 1.0), text="ab", height=5.0, angle_deg=30.0),
        LEVEL,
        UPRIGHT,
    ],
    ids=lambda i: type(i).__name__,
)
def test_moving_moves_the_box(item):
    before, after = box_of([item]), box_of([item.placed(moved((10.0, 20.0)))])

    assert after == pytest.approx((before[0] + 10.0, before[1] + 20.0, before[2] + 10.0, before[3] + 20.0))


def test_the_box_of_a_bow_reaches_to_its_crests_only():
    """From -10 to 100 degrees a circle runs past 0 and 90: right and top are the circle's, the left is an end's."""
    bow = Drawn(shape=Arc(centre=(0.0, 0.0), radius=1.0, start_deg=350.0, end_deg=460.0), pen=Pen.TUBE)

    assert box_of([bow]) == pytest.approx((-0.17364818, -0.17364818, 1.0, 1.0))


def test_a_turned_note_stands_on_its_baseline():
    """Turned by 90 degrees, right of its anchor is up; capitals reach left. Its right end is at the anchor."""
    note = Text(at=(10.0, 20.0), text="AB", height=5.0, anchor=Anchor.RIGHT, angle_deg=90.0)
    width = text_width("AB", 5.0)

    assert note.corners[0] == pytest.approx((10.0, 20.0 - width))
    assert note.corners[2] == pytest.approx((5.0, 20.0))


def test_letters_below_the_line_count():
    def low(text):
        return box_of([Text(at=(0.0, 0.0), text=text, height=5.0)])[1]

    assert low("AB") == 0.0
    assert low("Ag") < -1.0
