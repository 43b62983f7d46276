"""Texts set where nothing is drawn."""

from __future__ import annotations

import pytest

from tubeframe.drawing.labels.free_places import FreePlaces
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Arc, circle


def _note(x, y, height=10.0, angle=0.0, text="HHHH"):
    return Text(at=(x, y), text=text, height=height, angle_deg=angle)


LINE = strokes(Pen.TUBE, (((-100.0, 0.0), (100.0, 0.0)),))


@pytest.mark.parametrize(
    ("note", "free"),
    [
        (_note(0.0, -5.0), False),
        (_note(0.0, 2.1), True),
        (_note(0.0, 1.9), False),
        (_note(0.0, -12.1), True),
        (_note(102.1, -5.0), True),
        (_note(5.0, -10.0, angle=45.0), False),
        (_note(-1.0, -60.0, angle=90.0), True),
        (_note(-1.0, -20.0, angle=90.0), False),
    ],
)
def test_a_text_keeps_its_margin_to_a_line(note, free):
    assert FreePlaces([LINE], 2.0).is_free(note) is free


def test_a_line_wholly_within_a_text_is_hit():
    speck = strokes(Pen.TUBE, (((10.0, 4.0), (11.0, 5.0)),))

    assert not FreePlaces([speck], 0.0).is_free(_note(0.0, 0.0))


@pytest.mark.parametrize(
    "curve",
    [
        Drawn(shape=circle((0.0, 0.0), 50.0), pen=Pen.FITTING),
        Drawn(shape=Arc(centre=(0.0, 0.0), radius=50.0, start_deg=-30.0, end_deg=30.0), pen=Pen.TUBE),
    ],
    ids=["circle", "part of one"],
)
def test_curves_are_in_the_way_only_where_they_run(curve):
    free = FreePlaces([curve], 1.0)

    assert not free.is_free(_note(45.0, -5.0))
    assert free.is_free(_note(-15.0, -5.0))
    assert free.is_free(_note(-50.0, -5.0)) is not curve.shape.closed


def test_the_first_free_one_is_set_and_then_in_the_way():
    free = FreePlaces([LINE], 2.0)
    notes = [_note(0.0, -5.0), _note(0.0, 5.0), _note(0.0, 40.0)]

    assert free.put(notes) == notes[1]
    assert free.put(notes) == notes[2]
    assert free.put(notes) is None


def test_a_small_text_does_not_slip_into_a_large_one():
    free = FreePlaces([], 0.0)
    free.put([_note(0.0, 0.0, height=20.0)])

    assert not any(free.is_free(_note(x, y, height=6.0, text="1")) for x in (2.0, 20.0, 50.0) for y in (1.0, 6.0, 13.0))
