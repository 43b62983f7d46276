"""What is seen of bodies, as things to draw: each kind of curve as itself."""

from __future__ import annotations

from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, Body, TubeBody
from tubeframe.drawing.shapes import Arc, Curve, Ellipse, Lines
from tubeframe.drawing.views.drawn_bodies import drawn_bodies
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import Vec


def _kinds(path, view):
    seen = visible_lines([Body(key="t", tubes=(TubeBody(path=path, outside=20.0, bore=16.0),))], view)
    drawn = drawn_bodies(seen, Pen.TUBE)
    assert {d.pen for d in drawn} == {Pen.TUBE}
    return [type(d.shape) for d in drawn]


def test_a_tube_seen_end_on_is_two_circles():
    assert _kinds(line(Vec(0, 0, 0), Vec(0, 100, 0)), FRONT) == [Arc, Arc]


def test_a_tube_seen_aslant_is_lines_and_ellipses_the_lines_first():
    kinds = _kinds(line(Vec(0, 0, 0), Vec(100, 0, 0)), ISOMETRIC)

    assert kinds[0] is Lines
    assert set(kinds[1:]) == {Ellipse}


def test_a_bend_seen_aslant_has_curves():
    assert Curve in _kinds(through([Vec(0, 0, 0), Vec(0, 0, 300), Vec(0, 300, 300)], [100]), ISOMETRIC)
