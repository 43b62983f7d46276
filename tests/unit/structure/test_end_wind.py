"""Wind on a closed end by hand: a sheet that spans between uprights brings each half of what is beside it."""

from __future__ import annotations

import math

import pytest

from tests.building import draft_of
from tubeframe.catalog.conditions import Conditions
from tubeframe.catalog.limits import LimitKey
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import INCH_MM, MPH, POUND_N
from tubeframe.geometry.vector import Y, Z
from tubeframe.joints.resolve import jointed as joined
from tubeframe.structure.acting import on_cover
from tubeframe.structure.check import checked
from tubeframe.structure.end_wind import on_end
from tubeframe.structure.verdict import Code
from tubeframe.structure.weather import velocity_pressure

PRESSURE = 0.001
"""1 kPa [MPa]."""


def shed(*, closed=True):
    """A box of 2000 wide, 1500 high and 3000 long, a stud in the middle of its front."""
    members = []
    for end, y in (("front", 0), ("back", 3000)):
        for name, x in (("left", 0), ("right", 2000)):
            path = [[x, y, 0], [x, y, 1500]]
            members.append({"id": f"post.{end}.{name}", "path": path, "ends": ["foot", "joint"]})
        members.append({"id": f"beam.{end}", "path": [[0, y, 1500], [2000, y, 1500]]})
    members.append({"id": "stud", "path": [[1000, 0, 0], [1000, 0, 1500]], "ends": ["foot", "joint"]})
    over = [m["id"] for m in members if m["id"] != "stud"]
    cover = {"over": over, "width": 2000, "length": 3000, "height": 1500, "closed_ends": closed}
    document = {"schema": "tubeframe.frame/1", "units": "mm", "length_along": "y", "member": members, "cover": [cover]}
    frame = frame_from_document(document, generic_workshop(), "shed.toml")
    return frame, joined(frame, generic_workshop())


def test_a_stud_in_the_middle_takes_half():
    """1 kPa on 2000 x 1500 mm are 3000 N: 750, 1500 and 750 on the uprights, nothing on the beam over them."""
    frame, jointed = shed()
    forces = {a.tube: a.force for a in on_end(frame, jointed, PRESSURE, Y)}

    assert forces["stud"].y == pytest.approx(1500, rel=1e-6)
    assert forces["post.front.left"].y == pytest.approx(750, rel=1e-6)
    assert forces["post.front.right"].y == pytest.approx(750, rel=1e-6)
    assert forces["beam.front"].length == pytest.approx(0.0, abs=1e-9)
    assert not any("back" in tube for tube in forces)


def test_an_open_end_takes_none():
    frame, jointed = shed(closed=False)
    assert on_end(frame, jointed, PRESSURE, Y) == ()


def test_the_end_of_a_round_house_takes_what_its_area_is():
    """As high as the tubes' middles: 95.078 x 36 in and half a circle of 47.539; the door's own tubes take nothing."""
    draft = draft_of("greenhouse", width="8ft", height="7ft", bending="jig", ends="door")
    acts = on_end(draft.frame, draft.jointed, PRESSURE, Y)
    radius = (96 - 0.922) / 2
    area = (2 * radius * 36 + math.pi / 2 * radius**2) * INCH_MM**2

    assert sum(a.force.y for a in acts) == pytest.approx(PRESSURE * area, rel=2e-3)
    assert not any("door" in a.tube for a in acts)
    assert {a.tube for a in acts} >= {"jamb.front.left", "jamb.front.right"}


def test_both_halves_of_an_end_hoop_share_what_one_place_takes():
    """Five pairs of halves, four bays: an end takes an eighth of the lift, each of its halves a sixteenth."""
    draft = draft_of("greenhouse", shape="gothic", width="8ft")
    acts = on_cover(draft.frame.cover, Z * 1600.0, draft.jointed, Y)
    lift = {}
    for act in acts:
        member = next(t.member for t in draft.jointed.tubes if t.id == act.tube)
        lift[member] = lift.get(member, 0.0) + act.force.z

    assert lift["hoop.1.left"] == pytest.approx(100)
    assert lift["hoop.5.right"] == pytest.approx(100)
    assert lift["hoop.3.left"] == pytest.approx(200)


def test_the_worse_of_both_winds_is_told():
    draft = draft_of("greenhouse")
    found = checked(draft.frame, draft.jointed, draft.workshop, Conditions(wind=70 * MPH)).verdicts

    assert {v.case for v in found if v.code in {Code.WIND, Code.ANCHOR}} <= {"wind across", "wind on an end"}


def test_what_seventy_miles_an_hour_push_on_an_end():
    """q x 0.86 x its area: 9.06 psf on 6972.7 sq in, which are 48.42 sq ft, are 377 lb."""
    draft = draft_of("greenhouse", width="8ft", height="7ft", bending="jig", ends="film")
    pressure = velocity_pressure(70 * MPH, draft.workshop.limits) * draft.workshop.limits[LimitKey.WIND_END]
    pushed = sum(a.force.y for a in on_end(draft.frame, draft.jointed, pressure, Y))

    assert pushed == pytest.approx(0.00256 * 0.85 * 0.85 * 70**2 * 0.86 * 48.42 * POUND_N, rel=5e-3)
