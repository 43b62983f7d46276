"""A picture on paper: true lengths over the scale, all of it there."""

from __future__ import annotations

import pytest

from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.picture import on_paper, placed
from tubeframe.drawing.shapes import Arc, Area, circle
from tubeframe.drawing.shapes.plane import Axis, Transform

ITEMS = (
    strokes(Pen.TUBE, (((0.0, 0.0), (100.0, 50.0)),)),
    strokes(Pen.CENTRE, (((0.0, 0.0), (100.0, 0.0)),)),
    Drawn(shape=Arc(centre=(10.0, 20.0), radius=30.0, start_deg=10.0, end_deg=80.0), pen=Pen.TUBE),
    Drawn(shape=circle((10.0, 20.0), 60.0), pen=Pen.BALLOON),
    Drawn(shape=circle((10.0, 20.0), 6.0), pen=Pen.BALLOON, fill=Fill.BLACK),
    Text(at=(10.0, 20.0), text="FRONT", height=50.0, angle_deg=90.0),
)
TENTH = 1.0 / 10.0


def test_lengths_are_divided_by_the_scale():
    tube, centre, bow, ring, dot, note = on_paper(ITEMS, Transform(scale=TENTH, shift=(100.0, 200.0)))

    assert tube == strokes(Pen.TUBE, (((100.0, 200.0), (110.0, 205.0)),))
    assert centre.pen is Pen.CENTRE
    assert bow.shape == Arc(centre=(101.0, 202.0), radius=3.0, start_deg=10.0, end_deg=80.0)
    assert ring == Drawn(shape=circle((101.0, 202.0), 6.0), pen=Pen.BALLOON)
    assert (dot.shape.radius, dot.fill) == (pytest.approx(0.6), Fill.BLACK)
    assert note == Text(at=(101.0, 202.0), text="FRONT", height=5.0, angle_deg=90.0)


def test_a_dimension_is_drawn_out():
    one = Dimension(axis=Axis.HORIZONTAL, start=(0.0, 0.0), end=(1000.0, 0.0), line_at=-100.0, text="1000", scale=10)
    lines, first, second, value = on_paper([one], Transform(scale=TENTH))

    assert lines.shape.segments[-1] == ((0.0, -10.0), (100.0, -10.0))
    assert isinstance(first.shape, Area)
    assert (first.shape.corners[0], second.shape.corners[0]) == ((0.0, -10.0), (100.0, -10.0))
    assert first.fill is Fill.BLACK
    assert (value.at, value.height, value.text) == ((50.0, pytest.approx(-9.1)), pytest.approx(3.5), "1000")


def test_a_dimension_drawn_out_before_or_after_it_is_placed_is_the_same():
    one = Dimension(
        axis=Axis.VERTICAL, start=(0.0, 1.0), end=(7.0, 900.0), line_at=-100.0, text="899", text_along=300.0, scale=10
    )
    to = Transform(scale=TENTH, shift=(3.0, -4.0))

    before, after = on_paper([one], to), one.placed(to).drawn_out()

    assert [type(i) for i in before] == [type(i) for i in after]
    for a, b in zip(before, after, strict=True):
        assert a.extremes() == [pytest.approx(p) for p in b.extremes()]


def test_a_quarter_turn_takes_right_to_up():
    turned = Transform(shift=(1.0, 2.0), quarter_turn=True)
    tube, _, bow, ring, _, note = placed(on_paper(ITEMS, Transform(scale=TENTH)), turned)

    assert tube.shape.segments == (((1.0, 2.0), (-4.0, 12.0)),)
    assert (bow.shape.start_deg, bow.shape.end_deg, bow.shape.centre) == (100.0, 170.0, (-1.0, 3.0))
    assert ring.shape.centre == (-1.0, 3.0)
    assert (note.at, note.angle_deg) == ((-1.0, 3.0), 180.0)
