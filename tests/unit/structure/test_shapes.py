"""How a frame moves, for pictures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.building import draft_of
from tests.unit.structure.test_check import SPAN, of, stand
from tubeframe.catalog.conditions import Conditions
from tubeframe.geometry.units import MPH
from tubeframe.joints.resolve import resolved
from tubeframe.structure.check import checked
from tubeframe.structure.shape import Look
from tubeframe.structure.verdict import Code


def test_a_push_moves_the_tops_of_the_legs_by_the_sway_that_is_told():
    """What the verdict says of the pushed rail is what its places move in the picture."""
    found = checked(*stand(), Conditions())
    (shape,) = found.shapes
    rail = next(t for t in shape.tubes if t.tube == "rail.ad")

    assert (shape.look, shape.case, shape.force) == (Look.PUSHED, "push", pytest.approx(100.0))
    assert [s.x for s in rail.shifts] == pytest.approx(
        [of(found.verdicts, Code.SWAY).value] * len(rail.shifts), rel=0.02
    )
    assert all(t.places[0].distance(t.places[-1]) > 0.0 for t in shape.tubes)


def test_feet_stay_and_a_rail_sags_most_in_its_middle():
    load = {"name": "on a rail", "member": "rail.ab", "total": "300 N", "direction": [0, 0, -1]}
    found = checked(*stand(load=[load]), Conditions())
    (shape,) = found.shapes
    moved = {t.tube: t for t in shape.tubes}
    rail = moved["rail.ab"]
    lowest = min(zip(rail.places, rail.shifts, strict=True), key=lambda pair: pair[1].z)

    assert shape.look is Look.LOADED
    assert lowest[0].x == pytest.approx(SPAN / 2.0, abs=SPAN / 8.0)
    assert min(moved["leg.a"].shifts[0].length, moved["leg.a"].shifts[-1].length) < 1e-6
    assert shape.largest == pytest.approx(-lowest[1].z, rel=0.05)


def test_a_frame_that_folds_shows_how():
    """Two legs and a rail fall over sideways: the rail goes across its own plane and stays as long as it is."""
    frame, _, shop = stand()
    kept = {"leg.a", "leg.b", "rail.ab"}
    flat = replace(frame, members=tuple(m for m in frame.members if m.id in kept), loads=())
    found = checked(flat, resolved(flat, shop), shop, Conditions())
    first = found.shapes[0]
    rail = next(t for t in first.tubes if t.tube == "rail.ab")

    assert {s.look for s in found.shapes} == {Look.FOLDING}
    assert len(found.shapes) == 1
    assert max(abs(s.x) for s in rail.shifts) < 1e-3 * first.largest
    assert all(abs(s.y) > 0.9 * first.largest for s in rail.shifts)


def test_wind_and_snow_are_shown_where_they_are_asked_for():
    draft = draft_of("greenhouse")
    calm = checked(draft.frame, draft.jointed, draft.workshop, Conditions())
    storm = checked(draft.frame, draft.jointed, draft.workshop, Conditions(wind=70 * MPH))

    assert Look.WIND not in [s.look for s in calm.shapes]
    assert Look.WIND in [s.look for s in storm.shapes]
