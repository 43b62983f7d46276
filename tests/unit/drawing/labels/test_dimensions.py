"""Dimensions placed round a view: each value in a place of its own."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from tubeframe.drawing.labels.dimensions import FIRST_ROW, ROW, dimension_text, placed
from tubeframe.drawing.labels.wanted_dimensions import Side, Wanted
from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import circle
from tubeframe.drawing.shapes.plane import Axis
from tubeframe.drawing.views.view_lines import ViewLines
from tubeframe.geometry.units import INCH_MM, Units

SCALE = 10
MM = Units.MILLIMETRE


def _grid(*places, tall=1000.0):
    """Return a view of upright lines."""
    lines = np.array([[[x, 0.0], [x, tall]] for x in places])
    drawn = (strokes(Pen.TUBE, tuple((tuple(a), tuple(b)) for a, b in lines.tolist())),)
    return ViewLines(lines={"all": lines}, drawn=drawn, straight=lines)


def _below(low, high):
    return Wanted(side=Side.BELOW, low=low, high=high)


def _dimensions(found):
    return [i for i in found.items if isinstance(i, Dimension)]


def _apart(a, b):
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def _value_box(dimension):
    xs, ys = zip(*dimension.value.corners, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def test_rows_pack_from_the_shortest_out():
    """10 mm to the first row, 8 mm between rows; two side by side share one."""
    wants = [_below(0.0, 2000.0), _below(0.0, 900.0), _below(1000.0, 2000.0)]
    found = {d.text: d for d in _dimensions(placed(_grid(0.0, 900.0, 1000.0, 2000.0), wants, SCALE, MM))}

    assert found["900"].line_at == found["1000"].line_at == -FIRST_ROW * SCALE
    assert found["2000"].line_at == -(FIRST_ROW + ROW) * SCALE


def test_a_value_moves_out_of_the_way_of_an_extension_line():
    """The outer dimension's line at 500 would run through the middle of the inner value."""
    wants = [_below(0.0, 1000.0), _below(500.0, 2000.0)]
    inner, _ = sorted(_dimensions(placed(_grid(0.0, 500.0, 1000.0, 2000.0), wants, SCALE, MM)), key=lambda d: d.length)
    box = _value_box(inner)

    assert not box[0] < 500.0 < box[2]
    assert 0.0 < box[0] < box[2] < 1000.0


def test_a_narrow_one_has_its_value_outside():
    (found,) = _dimensions(placed(_grid(0.0, 30.0), [_below(0.0, 30.0)], SCALE, MM))

    assert found.text_along > 30.0
    assert found.length == 30.0


@pytest.mark.parametrize("seed", range(20))
def test_many_dimensions_never_overlap(seed):
    """Values, dimension lines and extension lines of 8 wanted distances; what finds no place is named."""
    places = np.sort(np.random.default_rng(seed).integers(0, 300, 9) * 10.0).tolist()
    wants = [_below(a, b) for a, b in combinations(places, 2) if b > a][::5][:8]
    found = placed(_grid(*places), wants, SCALE, MM)
    dimensions = _dimensions(found)

    assert len(dimensions) + len(found.left_out) == len(wants)
    assert all(_apart(_value_box(a), _value_box(b)) for a, b in combinations(dimensions, 2))
    for one in dimensions:
        left, bottom, right, top = _value_box(one)
        for other in dimensions:
            for (ax, ay), (bx, by) in other.segments:
                assert max(ax, bx) <= left or min(ax, bx) >= right or max(ay, by) <= bottom or min(ay, by) >= top


def test_what_is_hidden_is_named_not_drawn():
    found = placed(_grid(0.0, 900.0), [_below(0.0, 500.0)], SCALE, MM)

    assert _dimensions(found) == []
    assert found.left_out == ("opening 500",)


def test_a_height_to_a_middle_holds_on_to_a_centre_line():
    """The tube's left end is at 200; the line runs from there past the outline at 0 by 2 mm on paper."""
    want = Wanted(side=Side.LEFT, low=0.0, high=400.0, centre=(200.0, 800.0))
    found = placed(_grid(0.0, 900.0), [want], SCALE, MM)
    mark, dimension = found.items

    assert mark == strokes(Pen.CENTRE, (((-20.0, 400.0), (200.0, 400.0)),))
    assert dimension.end == (-20.0, 400.0)
    assert dimension.start == (0.0, 0.0)


def test_heights_on_the_right_stand_on_the_right():
    want = Wanted(side=Side.RIGHT, low=0.0, high=400.0, centre=(200.0, 800.0))
    mark, dimension = placed(_grid(0.0, 900.0), [want], SCALE, MM).items

    assert mark.shape.segments == (((920.0, 400.0), (800.0, 400.0)),)
    assert dimension.line_at == 900.0 + FIRST_ROW * SCALE


def test_an_edge_holds_on_to_the_tube_that_is_meant():
    """At 400 lines start at 0 and at 300; that of the tube from 300 on is held."""
    want = Wanted(side=Side.LEFT, low=0.0, high=400.0, edge=(300.0, 900.0))
    lines = ViewLines(
        lines={"a": np.array([[[0.0, 0.0], [0.0, 900.0]], [[300.0, 400.0], [900.0, 400.0]]])},
        drawn=(),
        straight=np.array([[[0.0, 0.0], [0.0, 900.0]], [[300.0, 400.0], [900.0, 400.0]]]),
    )
    (dimension,) = placed(lines, [want], SCALE, MM).items

    assert dimension.end == (300.0, 400.0)
    assert dimension.start == (0.0, 0.0)


def test_a_height_that_is_too_short_for_its_value_makes_the_drawing_no_higher():
    """At 1:10 arrows stand 50 past heights under 75, then the value: above the view's 100, so it goes below.

    There two rows of level dimensions stand 100 and 180 under the view.
    """
    short, over = (Wanted(side=Side.LEFT, low=0.0, high=v, edge=(0.0, 900.0)) for v in (30.0, 60.0))
    below = [_below(0.0, 900.0), _below(0.0, 400.0)]
    lines = ViewLines(
        lines={"a": np.array([[[0.0, 0.0], [900.0, 100.0]]])},
        drawn=(),
        straight=np.array(
            [
                [[0.0, 0.0], [900.0, 0.0]],
                [[0.0, 0.0], [0.0, 100.0]],
                [[900.0, 0.0], [900.0, 100.0]],
                [[400.0, 0.0], [400.0, 100.0]],
            ]
        ),
    )
    dimensions = _dimensions(placed(lines, [*below, short, over], SCALE, MM))

    assert len(dimensions) == 4
    assert all(-180.0 <= y <= 100.0 for d in dimensions if d.axis is Axis.VERTICAL for _, y in d.value.corners)


def test_texts_are_rounded_to_nearest():
    assert dimension_text(36.44 * INCH_MM, Units.INCH) == '36 7/16"'
    assert dimension_text(914.4, MM) == "914"
    assert dimension_text(914.6, MM) == "915"


def test_a_dimension_holds_on_to_a_circle_where_it_is_drawn():
    """A circle of radius 5 about (10, 10): at x = 13 its lowest point is y = 6 (3, 4, 5)."""
    lines = np.array([[[100.0, 0.0], [100.0, 1.0]]])
    ring = Drawn(shape=circle((10.0, 10.0), 5.0), pen=Pen.FITTING)
    view = ViewLines(lines={"all": lines}, drawn=(ring,), straight=lines)

    assert view.hold(Axis.HORIZONTAL, 13.0, least=True) == (13.0, pytest.approx(6.0))
    assert view.hold(Axis.VERTICAL, 15.0, least=False) == (pytest.approx(10.0), 15.0)
    assert view.hold(Axis.HORIZONTAL, 16.0, least=True) is None
