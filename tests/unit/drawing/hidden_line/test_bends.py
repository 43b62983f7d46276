from __future__ import annotations

import math

import numpy as np
import pytest

from tests.unit.drawing.hidden_line import rays
from tests.unit.drawing.hidden_line.seeing import lengths, plan_of, straight, total, tube
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.hidden_line.bend_outlines import bend_edges
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.model.scene import FRONT, PLAN, RIGHT_SIDE, Body, View
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import Arc, Path
from tubeframe.geometry.vector import Vec

SAG = 0.02


def hoop(y: float, *, width: float = 600.0, height: float = 800.0, bend: float = 110.0) -> Path:
    corners = (Vec(0, y, 0), Vec(0, y, height), Vec(width, y, height), Vec(width, y, 0))
    return through(corners, (bend, bend))


def test_a_bend_in_its_plane_is_two_arcs() -> None:
    path = through((Vec(0, 0, 0), Vec(0, 0, 300.0), Vec(200.0, 0, 300.0)), (100.0,))
    (seen,) = visible_lines((tube("t", path),), FRONT, sag=SAG)
    s = seen.segments
    # the bend's centre is (100, 200); what lies up and left of it belongs to the bend
    bent = s[(s[:, :, 0].max(axis=1) < 100.0 + 1e-6) & (s[:, :, 1].min(axis=1) > 200.0 - 1e-6)]
    away = np.linalg.norm(bent - np.array([100.0, 200.0]), axis=2)
    outer, inner = bent[away.mean(axis=1) > 100.0], bent[away.mean(axis=1) < 100.0]
    for side, radius in ((outer, 112.0), (inner, 88.0)):
        ends = np.linalg.norm(side - np.array([100.0, 200.0]), axis=2)
        assert ends == pytest.approx(np.full_like(ends, radius), abs=1e-9)
        middles = np.linalg.norm(side.mean(axis=1) - np.array([100.0, 200.0]), axis=1)
        assert middles.min() > radius - SAG - 1e-9
        assert lengths(side).sum() == pytest.approx(radius * math.pi / 2.0, rel=5e-4)


def test_a_bend_goes_over_into_its_straights_without_a_gap() -> None:
    path = through((Vec(0, 0, 0), Vec(0, 0, 300.0), Vec(200.0, 100.0, 350.0)), (100.0,))
    for view in (FRONT, PLAN, RIGHT_SIDE, View(to_viewer=Vec(0.4, -1.0, 0.3), right=Vec(1.0, 0.4, 0.0))):
        (seen,) = visible_lines((tube("t", path),), view)
        ends = seen.segments.reshape(-1, 2)
        apart = np.linalg.norm(ends[:, None] - ends[None], axis=2)
        own = np.arange(len(ends))
        apart[own, own] = apart[own, own ^ 1] = np.inf
        assert apart.min(axis=1).max() < 0.2


def test_a_bend_seen_along_its_plane_ends_in_a_half_circle() -> None:
    """From the side a hoop is an upright strip with a round top: the legs end 110 lower than the top's middle."""
    (seen,) = visible_lines((tube("hoop", hoop(0.0)),), RIGHT_SIDE)
    ends = seen.segments.reshape(-1, 2)
    assert ends[:, 1].max() == pytest.approx(800.0 + 12.0, abs=1e-9)
    top = seen.segments[seen.segments[:, :, 1].min(axis=1) > 800.0 - 1e-6]
    assert np.linalg.norm(top - np.array([0.0, 800.0]), axis=2) == pytest.approx(np.full((len(top), 2), 12.0))
    assert lengths(top).sum() == pytest.approx(math.pi * 12.0, rel=2e-3)
    assert total(seen) == pytest.approx(2.0 * 800.0 + math.pi * 12.0 + 24.0, rel=1e-4)


def test_equal_hoops_one_behind_the_other_show_once() -> None:
    one = visible_lines((tube("h0", hoop(0.0)),), FRONT)
    many = visible_lines([tube(f"h{i}", hoop(300.0 * i)) for i in range(6)], FRONT)
    assert [len(v.segments) for v in many] == [len(one[0].segments), 0, 0, 0, 0, 0]
    assert total(many[0]) == pytest.approx(total(one[0]))


def test_equal_bends_of_one_body_show_once() -> None:
    from_one = Body(key="all", tubes=tuple(tube("h", hoop(300.0 * i)).tubes[0] for i in range(4)))
    (one,) = visible_lines((tube("h0", hoop(0.0)),), FRONT)
    (many,) = visible_lines((from_one,), FRONT)
    assert total(many) == pytest.approx(total(one))


def test_a_bend_in_front_hides_what_is_behind_it() -> None:
    """A bar at the height of the bends' centres runs behind a hoop: it is hidden by both legs' width."""
    bar = straight("bar", Vec(-200.0, 300.0, 750.0), Vec(800.0, 300.0, 750.0))
    seen, _ = visible_lines((bar, tube("hoop", hoop(0.0))), FRONT)
    upper = [s for s in seen.segments.tolist() if abs(s[0][1] - 762.0) < 1e-6 and abs(s[1][1] - 762.0) < 1e-6]
    marks = sorted(x for (a, _), (b, _) in upper for x in (a, b))
    # the circles of radius 110 -+ 12 about (110, 690) and (490, 690) at the height 762
    out, into = math.sqrt(122.0**2 - 72.0**2), math.sqrt(98.0**2 - 72.0**2)
    expected = [-200.0, 110.0 - out, 110.0 - into, 490.0 + into, 490.0 + out, 800.0]
    assert marks == pytest.approx(expected, abs=0.15)


def test_a_tube_may_end_in_its_bend() -> None:
    arc = Arc(start=Vec(0, 0, 0), start_tangent=Vec(0, 0, 1), inward=Vec(1, 0, 0), radius=100.0, angle=math.pi / 2.0)
    (seen,) = visible_lines((tube("t", Path(pieces=(arc,))),), FRONT)
    assert total(seen) == pytest.approx(200.0 * math.pi / 2.0 + 2.0 * 24.0, rel=1e-3)
    (end,) = visible_lines((tube("t", Path(pieces=(arc,))),), RIGHT_SIDE)
    # the open end toward the viewer shows both circles, the rest two lines and the lower end
    assert total(end) == pytest.approx(2.0 * math.pi * (12.0 + 10.0) + 2.0 * 100.0 + 24.0, rel=2e-3)


def test_the_far_end_of_a_bend_is_hidden_by_its_near_end() -> None:
    """A U seen along its plane: the far leg is wholly behind the near one."""
    near_only = through((Vec(0, 0, 0), Vec(0, 0, 500.0)), ())
    u = through((Vec(0, 0, 0), Vec(0, 0, 500.0), Vec(0, 400.0, 500.0), Vec(0, 400.0, 0)), (100.0, 100.0))
    (whole,) = visible_lines((tube("u", u),), FRONT)
    (leg,) = visible_lines((tube("leg", near_only),), FRONT)
    assert total(whole) == pytest.approx(total(leg) - 24.0 + math.pi * 12.0, rel=1e-4)


def test_a_view_a_hair_off_a_bends_plane_looks_like_the_view_along_it() -> None:
    body = tube("hoop", hoop(0.0))
    exact = plan_of(visible_lines((body,), RIGHT_SIDE)).reshape(-1, 2)
    near = plan_of(visible_lines((body,), View(to_viewer=Vec(1.0, 1e-6, 0.0), right=Vec(0, 1.0, 0)))).reshape(-1, 2)
    assert near.min(axis=0) == pytest.approx(exact.min(axis=0), abs=0.01)
    assert near.max(axis=0) == pytest.approx(exact.max(axis=0), abs=0.01)


def test_a_bend_hides_a_like_bend_behind_it_that_is_shorter() -> None:
    """Their chords do not begin alike, so nothing but the bend in front can take them away."""
    a = math.radians(50.0)
    corner = 400.0 + 100.0 * math.tan(a / 2.0)
    end = Vec(150.0 * math.sin(a), 300.0, corner + 150.0 * math.cos(a))
    front = through((Vec(0, 0, 0), Vec(0, 0, 500.0), Vec(400.0, 0, 500.0)), (100.0,))
    back = through((Vec(0, 300.0, 0), Vec(0, 300.0, corner), end), (100.0,))
    _, seen = visible_lines((tube("front", front), tube("back", back)), FRONT)
    (alone,) = visible_lines((tube("back", back),), FRONT)
    centre = np.array([100.0, 400.0])
    for lines, expected in ((alone, True), (seen, False)):
        away = np.linalg.norm(lines.segments - centre, axis=2)
        on_the_bend = (np.abs(np.abs(away - 100.0) - 12.0) < 1e-6).all(axis=1) & (lengths(lines.segments) < 10.0)
        assert on_the_bend.any() == expected


@pytest.mark.parametrize("tilt", [0.02, 0.1, 0.5, 2.0])
def test_an_outline_stops_where_it_turns_back_behind_the_surface(tilt: float) -> None:
    """A line of sight through a point of the outline touches the tube there from outside, before and behind."""
    path = through((Vec(0, 0, 0), Vec(0, 0, 300.0), Vec(0, 200.0, 300.0)), (100.0,))
    view = View(to_viewer=Vec(tilt, -1.0, 0.3), right=Vec(1.0, tilt, 0.0))
    (bend,) = taken_apart((tube("t", path),), view, sag=SAG, min_size=0.0).bends
    edges = bend_edges(bend, sag=SAG)
    ends = np.concatenate([edges.start, edges.end]) @ np.array([tuple(a) for a in view.axes])
    distance = rays.bend(path.bends[0][1], 12.0)
    assert np.abs(distance(ends)).max() < 0.05
    sight = np.array(tuple(view.to_viewer.unit))
    for step in (0.5, -0.5):
        assert distance(ends + step * sight).min() > -2e-3


def test_no_gap_opens_where_a_bend_meets_its_straight() -> None:
    """A small disc within the tube, across the joint at (0, 200)."""
    path = through((Vec(0, 0, 0), Vec(0, 0, 300.0), Vec(200.0, 0, 300.0)), (100.0,))
    disc = Cylinder(start=Vec(0, -4.0, 200.0), end=Vec(0, 4.0, 200.0), radius=5.0)
    _, seen = visible_lines((tube("t", path), Body(key="disc", pieces=(disc,))), FRONT)
    assert len(seen.segments) == 0
