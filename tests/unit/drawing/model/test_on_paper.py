"""A picture on paper: true lengths over the scale, all of it there."""

from __future__ import annotations

import pytest

from tubeframe.drawing.model.on_paper import on_paper, shifted
from tubeframe.drawing.model.picture import Axis, Bow, Dimension, Layer, Note, Picture, Ring, Strokes
from tubeframe.drawing.model.sheet import ArcItem, Circle, Fill, Lines, Pen, Polyline, Text
from tubeframe.geometry.units import Units

PICTURE = Picture(
    title="try",
    items=(
        Strokes(layer=Layer.TUBE, segments=(((0.0, 0.0), (100.0, 50.0)),)),
        Strokes(layer=Layer.CENTER, segments=(((0.0, 0.0), (100.0, 0.0)),)),
        Bow(layer=Layer.TUBE, centre=(10.0, 20.0), radius=30.0, start_deg=10.0, end_deg=80.0),
        Ring(layer=Layer.BALLOON, centre=(10.0, 20.0), radius=60.0),
        Ring(layer=Layer.BALLOON, centre=(10.0, 20.0), radius=6.0, filled=True),
        Note(layer=Layer.TEXT, at=(10.0, 20.0), text="FRONT", height=50.0, angle=90.0),
    ),
    scale=10,
    units=Units.MILLIMETRE,
)


def test_lengths_are_divided_by_the_scale():
    tube, centre, bow, ring, dot, note = on_paper(PICTURE, (100.0, 200.0))

    assert tube == Lines(segments=(((100.0, 200.0), (110.0, 205.0)),), pen=Pen.MEDIUM)
    assert centre.pen is Pen.CENTRE
    assert bow == ArcItem(centre=(101.0, 202.0), radius=3.0, start_deg=10.0, end_deg=80.0, pen=Pen.MEDIUM)
    assert ring == Circle(centre=(101.0, 202.0), radius=6.0, pen=Pen.NARROW)
    assert (dot.radius, dot.fill) == (pytest.approx(0.6), Fill.BLACK)
    assert note == Text(at=(101.0, 202.0), text="FRONT", cap_height=5.0, angle_deg=90.0)


def test_a_dimension_is_drawn_out():
    one = Dimension(axis=Axis.HORIZONTAL, start=(0.0, 0.0), end=(1000.0, 0.0), line_at=-100.0, text="1000")
    picture = Picture(title="try", items=(one,), scale=10, units=Units.MILLIMETRE)
    lines, first, second, value = on_paper(picture, (0.0, 0.0))

    assert lines.segments[-1] == ((0.0, -10.0), (100.0, -10.0))
    assert isinstance(first, Polyline)
    assert (first.points[0], second.points[0]) == ((0.0, -10.0), (100.0, -10.0))
    assert first.fill is Fill.BLACK
    assert (value.at, value.cap_height, value.text) == ((50.0, pytest.approx(-9.1)), pytest.approx(3.5), "1000")


def test_a_quarter_turn_takes_right_to_up():
    tube, _, bow, ring, _, note = (shifted(i, (1.0, 2.0), quarter_turn=True) for i in on_paper(PICTURE, (0.0, 0.0)))

    assert tube.segments == (((1.0, 2.0), (-4.0, 12.0)),)
    assert (bow.start_deg, bow.end_deg, bow.centre) == (100.0, 170.0, (-1.0, 3.0))
    assert ring.centre == (-1.0, 3.0)
    assert (note.at, note.angle_deg) == ((-1.0, 3.0), 180.0)
