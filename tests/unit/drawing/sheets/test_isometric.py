"""Names in circles on small pictures: on their parts where little is under them, else beside with a leader."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes.plane import Transform
from tubeframe.drawing.sheets.isometric import Label, balloons
from tubeframe.geometry.vector import Vec

FIT = Transform(scale=1.0, shift=(100.0, 100.0))
BOX = (0.0, 0.0, 200.0, 200.0)


def _rings(items):
    return [i.shape for i in items if isinstance(i, Drawn) and i.fill is Fill.WHITE]


def _hatching(x, y, half=6.0):
    return strokes(Pen.TUBE, [((x - half, y + k), (x + half, y + k)) for k in range(-5, 6)])


def _seen(at):
    return FIT.point(ISOMETRIC.project(at))


MIDDLE, ASIDE = Vec(0.0, 0.0, 0.0), Vec(0.0, 0.0, 40.0)


def test_a_name_stands_on_the_middle_of_its_part():
    (ring,) = _rings(balloons([Label(at=(MIDDLE, ASIDE), text="T1")], [], FIT, BOX))

    assert ring.centre == pytest.approx(_seen(MIDDLE))


def test_a_name_moves_along_its_part_off_what_is_drawn():
    (ring,) = _rings(balloons([Label(at=(MIDDLE, ASIDE), text="T1")], [_hatching(*_seen(MIDDLE))], FIT, BOX))

    assert ring.centre == pytest.approx(_seen(ASIDE))


def test_a_name_without_room_stands_beside_with_a_leader_to_its_part():
    items = balloons([Label(at=(MIDDLE,), text="T1")], [_hatching(*_seen(MIDDLE), half=5.0)], FIT, BOX)
    (ring,) = _rings(items)
    (leader,) = [i.shape.segments[0] for i in items if isinstance(i, Drawn) and hasattr(i.shape, "segments")]

    assert math.dist(ring.centre, _seen(MIDDLE)) > 10.0
    assert leader[1] == pytest.approx(_seen(MIDDLE))
    assert math.dist(leader[0], ring.centre) == pytest.approx(ring.radius)


def test_names_never_cover_each_other():
    rings = _rings(balloons([Label(at=(MIDDLE,), text=f"T{n}") for n in range(5)], [], FIT, BOX))

    assert len(rings) == 5
    assert all(math.dist(a.centre, b.centre) >= 2 * a.radius for a, b in combinations(rings, 2))


@pytest.mark.parametrize("text", ["T1", "T1L", "T12R"])
def test_a_name_fits_its_circle(text):
    items = balloons([Label(at=(MIDDLE,), text=text)], [], FIT, BOX)
    (ring,), (written,) = _rings(items), [i for i in items if isinstance(i, Text)]

    half = text_width(text, written.height, bold=written.bold) / 2.0
    assert math.hypot(half, written.height / 2.0) <= ring.radius


def test_names_stay_inside_the_picture():
    """The part's middle lies 2 mm under the upper edge: a circle of 10 mm would run over what stands above."""
    x, y = _seen(MIDDLE)
    box = (x - 50.0, y - 98.0, 100.0, 100.0)
    (ring,) = _rings(balloons([Label(at=(MIDDLE,), text="T1")], [], FIT, box))

    assert ring.centre[1] + ring.radius <= box[1] + box[3]
