"""Names in circles on small pictures: on their parts where little is under them, else beside with a leader."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from tubeframe.drawing.exploded.naming import EndName, Label, Names
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes.plane import Transform
from tubeframe.drawing.sheets.step_labels import Labels
from tubeframe.geometry.vector import Vec

FIT = Transform(scale=1.0, shift=(100.0, 100.0))
BOX = (0.0, 0.0, 200.0, 200.0)


def _set(labels, drawn, box=BOX, *, ends=(), clamps=()):
    return Labels(drawn, FIT, ISOMETRIC, box, clamps).all(Names(marks=tuple(labels), ends=tuple(ends), small=()))


def _rings(items):
    return [i.shape for i in items if isinstance(i, Drawn) and i.fill is Fill.WHITE]


def _hatching(x, y, half=6.0):
    return strokes(Pen.TUBE, [((x - half, y + k), (x + half, y + k)) for k in range(-5, 6)])


def _seen(at):
    return FIT.point(ISOMETRIC.project(at))


MIDDLE, ASIDE = Vec(0.0, 0.0, 0.0), Vec(0.0, 0.0, 40.0)


def test_a_name_stands_on_the_middle_of_its_part():
    (ring,) = _rings(_set([Label(at=(MIDDLE, ASIDE), text="T1")], [], BOX))

    assert ring.centre == pytest.approx(_seen(MIDDLE))


def test_a_name_moves_along_its_part_off_what_is_drawn():
    (ring,) = _rings(_set([Label(at=(MIDDLE, ASIDE), text="T1")], [_hatching(*_seen(MIDDLE))], BOX))

    assert ring.centre == pytest.approx(_seen(ASIDE))


def test_a_name_without_room_stands_beside_with_a_leader_to_its_part():
    items = _set([Label(at=(MIDDLE,), text="T1")], [_hatching(*_seen(MIDDLE), half=5.0)], BOX)
    (ring,) = _rings(items)
    (leader,) = [i.shape.segments[0] for i in items if isinstance(i, Drawn) and hasattr(i.shape, "segments")]

    assert math.dist(ring.centre, _seen(MIDDLE)) > 7.0
    assert leader[1] == pytest.approx(_seen(MIDDLE))
    assert math.dist(leader[0], ring.centre) == pytest.approx(ring.radius)


def test_names_never_cover_each_other():
    rings = _rings(_set([Label(at=(MIDDLE,), text=f"T{n}") for n in range(5)], [], BOX))

    assert len(rings) == 5
    assert all(math.dist(a.centre, b.centre) >= 2 * a.radius for a, b in combinations(rings, 2))


@pytest.mark.parametrize("text", ["T1", "T1L", "T12R"])
def test_a_name_fits_its_circle(text):
    items = _set([Label(at=(MIDDLE,), text=text)], [], BOX)
    (ring,), (written,) = _rings(items), [i for i in items if isinstance(i, Text)]

    half = text_width(text, written.height, bold=written.bold) / 2.0
    assert math.hypot(half, written.height / 2.0) <= ring.radius


def test_names_stay_inside_the_picture():
    """The part's middle lies 2 mm under the upper edge: a circle of 10 mm would run over what stands above."""
    x, y = _seen(MIDDLE)
    box = (x - 50.0, y - 98.0, 100.0, 100.0)
    (ring,) = _rings(_set([Label(at=(MIDDLE,), text="T1")], [], box))

    assert ring.centre[1] + ring.radius <= box[1] + box[3]


def test_a_name_never_covers_a_new_clamp():
    x, y = _seen(MIDDLE)
    (ring,) = _rings(_set([Label(at=(MIDDLE,), text="T1")], [], clamps=[(x - 3.0, y - 3.0, x + 3.0, y + 3.0)]))

    assert math.dist(ring.centre, (x, y)) >= 3.0 + ring.radius - 1e-6


def test_an_end_is_named_beyond_it():
    items = _set([], [], ends=[EndName(at=MIDDLE, out=Vec(0.0, 0.0, 1.0), text="B")])
    (letter,) = [i for i in items if isinstance(i, Text)]

    assert letter.text == "B"
    assert letter.at[0] == pytest.approx(_seen(MIDDLE)[0])
    assert letter.at[1] > _seen(MIDDLE)[1]
