from __future__ import annotations

import math

import pytest
from scipy.special import ellipe

from tests.unit.drawing.hidden_line.seeing import level_at, rod, straight, total
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, PLAN, RIGHT_SIDE, Body
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.vector import Vec

SKIN = 0.01
"""Lines may end this much off where surfaces meet [mm]."""


def test_a_rod_across_hides_its_diameter() -> None:
    behind = rod("behind", Vec(-500.0, 100.0, 0.0), Vec(500.0, 100.0, 0.0), 10.0)
    across = rod("across", Vec(0.0, 0.0, -300.0), Vec(0.0, 0.0, 300.0), 12.0)
    seen, front = visible_lines((behind, across), FRONT)
    for y in (-10.0, 10.0):
        left, right = level_at(seen, y)
        assert left == pytest.approx((-500.0, -12.0), abs=SKIN)
        assert right == pytest.approx((12.0, 500.0), abs=SKIN)
    assert total(seen) == pytest.approx(2.0 * (1000.0 - 24.0) + 2.0 * 20.0, abs=0.05)
    assert total(front) == pytest.approx(2.0 * 600.0 + 2.0 * 24.0, abs=0.05)


@pytest.mark.parametrize("angle", [75.0, 45.0, 20.0])
def test_a_rod_aslant_hides_its_diameter_over_the_sine(angle: float) -> None:
    a = math.radians(angle)
    way = Vec(math.cos(a), 0.0, math.sin(a)) * 900.0
    behind = rod("behind", Vec(-500.0, 100.0, 0.0), Vec(500.0, 100.0, 0.0), 10.0)
    seen, _ = visible_lines((behind, rod("aslant", -way, way, 12.0)), FRONT)
    for y in (-10.0, 10.0):
        (_, gap_start), (gap_end, _) = level_at(seen, y)
        assert gap_end - gap_start == pytest.approx(24.0 / math.sin(a), abs=2.0 * SKIN)
        assert (gap_end + gap_start) / 2.0 == pytest.approx(y / math.tan(a), abs=SKIN)


def test_a_rod_behind_hides_nothing() -> None:
    near = rod("near", Vec(-500.0, -100.0, 0.0), Vec(500.0, -100.0, 0.0), 10.0)
    across = rod("across", Vec(0.0, 0.0, -300.0), Vec(0.0, 0.0, 300.0), 12.0)
    seen, far = visible_lines((near, across), FRONT)
    assert total(seen) == pytest.approx(2.0 * 1000.0 + 2.0 * 20.0, abs=0.05)
    assert total(far) == pytest.approx(2.0 * (600.0 - 20.0) + 2.0 * 24.0, abs=0.05)


def test_a_rod_is_cut_where_it_goes_into_another() -> None:
    """A rod along y of radius 6 into the side of one along z of radius 10: seen from above it begins on the circle."""
    post = rod("post", Vec(0.0, 0.0, 0.0), Vec(0.0, 0.0, 100.0), 10.0)
    arm = rod("arm", Vec(0.0, 0.0, 50.0), Vec(0.0, 80.0, 50.0), 6.0)
    _, seen = visible_lines((post, arm), PLAN)
    begins = math.sqrt(10.0**2 - 6.0**2)
    assert total(seen) == pytest.approx(2.0 * (80.0 - begins) + 12.0, abs=0.05)


def test_a_sleeve_hides_the_tube_over_its_length() -> None:
    tube = straight("tube", Vec(-500.0, 0.0, 0.0), Vec(500.0, 0.0, 0.0), 24.0)
    sleeve = Body(key="sleeve", pieces=(Cylinder(start=Vec(-50.0, 0, 0), end=Vec(70.0, 0, 0), radius=15.0, bore=12.0),))
    seen, cover = visible_lines((tube, sleeve), FRONT)
    for y in (-12.0, 12.0):
        left, right = level_at(seen, y)
        assert left == pytest.approx((-500.0, -50.0), abs=SKIN)
        assert right == pytest.approx((70.0, 500.0), abs=SKIN)
    assert total(seen) == pytest.approx(2.0 * (1000.0 - 120.0) + 2.0 * 24.0, abs=0.05)
    assert total(cover) == pytest.approx(2.0 * 120.0 + 2.0 * 30.0, abs=0.05)


def test_the_rim_of_a_sleeve_shows_on_the_near_side_of_its_tube() -> None:
    """The bore's circle lies on the tube: its near half is seen, its far half is not. It must not vanish."""
    tube = straight("tube", Vec(-500.0, 0.0, 0.0), Vec(500.0, 0.0, 0.0), 24.0)
    sleeve = Cylinder(start=Vec(-50.0, 0, 0), end=Vec(70.0, 0, 0), radius=15.0, bore=12.0)
    _, bored = visible_lines((tube, Body(key="s", pieces=(sleeve,))), ISOMETRIC)
    solid = Cylinder(start=sleeve.start, end=sleeve.end, radius=15.0)
    _, plain = visible_lines((tube, Body(key="s", pieces=(solid,))), ISOMETRIC)
    squash = 1.0 / math.sqrt(3.0)
    perimeter = 4.0 * 12.0 * ellipe(1.0 - squash**2)
    # chords near the outline go on until they are 0.022 mm inside of it: cos(3.5 degrees) radii from the middle
    beyond = math.radians(3.5) * 12.0
    assert perimeter / 2.0 - 0.05 < total(bored) - total(plain) < perimeter / 2.0 + 2.0 * beyond


def test_end_on_one_sees_through_a_bore() -> None:
    tube = straight("tube", Vec(0.0, 0.0, 0.0), Vec(0.0, 200.0, 0.0), outside=20.0, bore=16.0)
    bar = rod("bar", Vec(-50.0, 300.0, 0.0), Vec(50.0, 300.0, 0.0), 3.0)
    rings, seen = visible_lines((tube, bar), FRONT)
    hole, outside = math.sqrt(8.0**2 - 9.0), math.sqrt(10.0**2 - 9.0)
    for y in (-3.0, 3.0):
        left, middle, right = level_at(seen, y)
        assert left == pytest.approx((-50.0, -outside), abs=SKIN)
        assert middle == pytest.approx((-hole, hole), abs=SKIN)
        assert right == pytest.approx((outside, 50.0), abs=SKIN)
    # chords of circles of radius 10 and 8
    assert total(rings) == pytest.approx(2.0 * math.pi * 18.0, rel=2e-3)


def test_end_on_a_bar_in_front_of_the_bore_hides_the_rings() -> None:
    tube = straight("tube", Vec(0.0, 0.0, 0.0), Vec(0.0, 200.0, 0.0), outside=20.0, bore=16.0)
    bar = rod("bar", Vec(-50.0, -30.0, 0.0), Vec(50.0, -30.0, 0.0), 3.0)
    rings, seen = visible_lines((tube, bar), FRONT)
    hidden = sum(4.0 * r * math.asin(3.0 / r) for r in (10.0, 8.0))
    # each of the eight ends is hidden by the sag and the skin more
    assert total(rings) == pytest.approx(2.0 * math.pi * 18.0 - hidden, abs=8.0 * 0.03 + 0.2)
    assert total(seen) == pytest.approx(2.0 * 100.0 + 2.0 * 6.0, abs=0.05)


def test_equal_tubes_seen_end_on_one_behind_the_other_show_once() -> None:
    tubes = [straight(f"t{i}", Vec(0.0, i * 300.0, 0.0), Vec(0.0, i * 300.0 + 200.0, 0.0)) for i in range(3)]
    seen = visible_lines(tubes, FRONT)
    assert [len(v.segments) > 0 for v in seen] == [True, False, False]


def test_a_rod_aslant_shows_its_near_end_whole_and_half_of_its_far_end() -> None:
    """In an isometric view a rod along x looks sqrt(2/3) as long, and its ends are ellipses with axes r, r/sqrt(3)."""
    (seen,) = visible_lines((rod("rod", Vec(0, 0, 0), Vec(300.0, 0, 0), 10.0),), ISOMETRIC)
    perimeter = 4.0 * 10.0 * ellipe(1.0 - 1.0 / 3.0)
    assert total(seen) == pytest.approx(2.0 * 300.0 * math.sqrt(2.0 / 3.0) + 1.5 * perimeter, rel=5e-4)


def test_lines_are_seen_where_the_view_says() -> None:
    body = rod("rod", Vec(10.0, 20.0, 30.0), Vec(10.0, 20.0, 130.0), 5.0)
    for view, x in ((FRONT, 10.0), (RIGHT_SIDE, 20.0)):
        (seen,) = visible_lines((body,), view)
        low, high = seen.segments.reshape(-1, 2).min(axis=0), seen.segments.reshape(-1, 2).max(axis=0)
        assert low.tolist() == pytest.approx([x - 5.0, 30.0])
        assert high.tolist() == pytest.approx([x + 5.0, 130.0])
    (seen,) = visible_lines((body,), PLAN)
    assert seen.segments.reshape(-1, 2).mean(axis=0).tolist() == pytest.approx([10.0, 20.0])


def test_nothing_gives_nothing() -> None:
    assert visible_lines((), FRONT) == ()
    (seen,) = visible_lines((Body(key="empty"),), FRONT)
    assert seen.key == "empty"
    assert seen.segments.shape == (0, 2, 2)
