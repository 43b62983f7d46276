from __future__ import annotations

import math

import pytest

from tubeframe.errors import BendError
from tubeframe.geometry.closest import approaches, nearest_on
from tubeframe.geometry.corners import through
from tubeframe.geometry.extent import of_tube
from tubeframe.geometry.path import joined, line
from tubeframe.geometry.vector import Vec, angle_deg, rotated, turn_deg

ELBOW = through([Vec(0, 0, 0), Vec(0, 0, 500), Vec(400, 0, 500)], [100.0])


def test_developed_length_is_legs_less_what_the_bend_saves():
    """2 T - r q saved, with T = r tan(q/2): plane geometry."""
    assert ELBOW.length == pytest.approx(900 - (2 * 100 - 100 * math.pi / 2))


def test_a_right_angle_bend_of_4_1_2_in_is_7_069_in_long():
    """pi R / 2 = 7.069 in: any handbook on bending conduit."""
    assert ELBOW.bends[0][1].length * 4.5 / 100 == pytest.approx(7.069, abs=1e-3)


def test_points_along_it():
    assert ELBOW.point(400).distance(Vec(0, 0, 400)) == pytest.approx(0, abs=1e-9)
    assert ELBOW.point(ELBOW.length).distance(Vec(400, 0, 500)) == pytest.approx(0, abs=1e-9)
    middle = ELBOW.point(400 + 100 * math.pi / 4)
    assert middle.distance(Vec(100 * (1 - math.sqrt(0.5)), 0, 400 + 100 * math.sqrt(0.5))) == pytest.approx(0, abs=1e-9)


def test_run_the_other_way_it_has_the_same_points():
    back = ELBOW.reversed()

    for at in (0.0, 250.0, 450.0, 700.0):
        assert back.point(back.length - at).distance(ELBOW.point(at)) == pytest.approx(0, abs=1e-9)


def test_a_part_has_the_length_between_its_marks():
    part = ELBOW.part(50, 430)

    assert part.length == pytest.approx(380)
    assert part.end.distance(ELBOW.point(430)) == pytest.approx(0, abs=1e-9)


def test_bends_without_room_are_refused_with_the_numbers():
    with pytest.raises(BendError, match=r"take 200\.0 mm of a straight that is 150\.0 mm"):
        through([Vec(0, 0, 0), Vec(0, 0, 500), Vec(150, 0, 500), Vec(150, 0, 0)], [100.0, 100.0])


def test_a_tube_folded_back_is_refused():
    with pytest.raises(BendError, match="folds the tube back"):
        through([Vec(0, 0, 0), Vec(0, 0, 500), Vec(0, 0, 100)], [10.0])


def test_box_of_a_bent_tube_reaches_its_crown():
    """A half circle of R 300 at the height 0, tube 40: top at R + 20."""
    hoop = through([Vec(-300, 0, 0), Vec(-300, 0, 300), Vec(300, 0, 300), Vec(300, 0, 0)], [300.0, 300.0])
    box = of_tube(hoop, 40.0)

    assert box.high.z == pytest.approx(320)
    assert (box.low.x, box.high.x) == pytest.approx((-320, 320))
    assert (box.low.y, box.high.y) == pytest.approx((-20, 20))


def test_box_of_a_leaning_tube():
    """A disk of normal n reaches r sqrt(1 - n_i^2) along axis i."""
    box = of_tube(line(Vec(0, 0, 0), Vec(300, 0, 400)), 50.0)

    assert box.low.x == pytest.approx(-25 * 0.8)
    assert box.high.z == pytest.approx(400 + 25 * 0.6)


def test_nearest_points_of_two_tubes_that_pass():
    (near,) = approaches(line(Vec(0, 0, 0), Vec(100, 0, 0)), line(Vec(40, -50, 7), Vec(40, 50, 7)), within=10)

    assert (near.at_first, near.at_second, near.distance) == pytest.approx((40, 50, 7))


def test_nearest_place_on_a_tube():
    assert nearest_on(line(Vec(0, 0, 0), Vec(100, 0, 0)), Vec(30, 4, 3)) == pytest.approx((30, 5))


def test_angles_and_turns():
    assert angle_deg(Vec(1, 0, 0), Vec(-1, 1e-9, 0)) == pytest.approx(180)
    assert turn_deg(Vec(1, 0, 0), Vec(0, -1, 0), Vec(0, 0, 1)) == pytest.approx(270)
    assert turn_deg(Vec(1, 0, 0), Vec(1, -1e-12, 0), Vec(0, 0, 1)) == 0.0
    assert rotated(Vec(1, 0, 0), Vec(0, 0, 1), math.pi / 2).distance(Vec(0, 1, 0)) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("height", [495.0, 500.0, 505.0])
def test_a_tube_that_passes_where_a_leg_goes_over_into_a_wide_arc_is_near_once(height):
    """A level line 30 off a leg of 500 that goes on into an arc of 1200: one place, at the line's height."""
    hoop = through([Vec(0, 0, 0), Vec(0, 0, 1700), Vec(1200, 0, 1700)], [1200.0])
    (near,) = approaches(hoop, line(Vec(0, 30, height), Vec(300, 30, height - 40)), 31.0)

    assert near.at_first == pytest.approx(height, abs=0.1)


def test_arcs_round_one_circle_are_one():
    """Two quarters that go on are half a circle; an S of two stays two."""
    over = through([Vec(0, 0, 0), Vec(0, 0, 600), Vec(1000, 0, 600), Vec(1000, 0, 0)], [500.0, 500.0])
    wave = through([Vec(0, 0, 0), Vec(0, 0, 600), Vec(1000, 0, 600), Vec(1000, 0, 1200)], [500.0, 500.0])

    assert [b.angle for _, b in joined(over).bends] == [pytest.approx(math.pi)]
    assert len(joined(wave).bends) == 2
