"""Ends, door, vents, anchors and cover of a greenhouse, by hand arithmetic for EMT 3/4 in inches."""

from __future__ import annotations

import math
from collections import Counter

import pytest

from tests.building import design_of, draft_of, frame_of, inches
from tubeframe.errors import InputError, Severity
from tubeframe.frame.member import EndKind

D = 0.922
"""Outside diameter of EMT 3/4 (Steel Tube Institute, table 'EMT Weights and Dimensions') [in]."""
S = D / 2 + 1 / 16
G, GB, GAP = 1.875, 1.5 * D, 0.25
"""Grip on a run, grip on a branch, room for the key (common practice, no source) [in]."""
PITCH = G + GAP
FLANGE = 1 / 8
BODY = D / 2 + 3 / 8
R = 5.539
"""Radius of the small bends for 3/4: a marked take-up of 6 in less D/2 (common practice, no source) [in]."""
SIZES = {"width": "8ft", "length": "12ft", "height": "7ft"}


def lengths(draft):
    return {p.id: inches(p.cut_length) for p in draft.parts.pieces}


def jambs():
    """The jambs of a door 32 in wide in a hoop 8 ft wide: one on the straight that leans 15 degrees, one on the next.

    Half a straight is h = (R_hoop - r) tan 7.5 = 5.529 in; G/2 + 1/2 in of it keep off the bend, so the clamp may be
    h - 1.4375 = 4.092 in off the straight's middle, which is (47.539 sin 15, 36 + 47.539 cos 15) from the middle of
    the spring line: 12.304 + 4.092 cos 15 = 16.256 in off it at most. Two there are 32.51 apart, and 32 + D = 32.922
    are wanted: the other stands on the next straight, as near as 47.539 sin 30 - 4.092 cos 30 = 20.226, and the one
    moves in to 12.696.
    """
    half = (47.539 - R) * math.tan(math.radians(7.5)) - G / 2 - 0.5
    assert 2 * (47.539 * math.sin(math.radians(15)) + half * math.cos(math.radians(15))) < 32 + D
    farther = 47.539 * math.sin(math.radians(30)) - half * math.cos(math.radians(30))
    return 32 + D - farther, farther


def test_a_door_by_hand():
    cut = lengths(draft_of("greenhouse", **SIZES))
    between = sum(jambs())
    header = 72 + D / 2
    bottom = 1.5 + G / 2 + PITCH
    top = header - max(PITCH, 2 * BODY + GAP)
    latch = D / 2 + 3 / 8 + BODY
    rail = between - latch
    assert cut["header.front"] == pytest.approx(between - 2 * S, abs=1e-3)
    assert cut["door.rail.top"] == pytest.approx(rail - 2 * S, abs=1e-3)
    assert cut["door.rail.bottom"] == cut["door.rail.top"]
    assert cut["door.stile.latch"] == pytest.approx(top - bottom - 2 * S, abs=1e-3)
    assert cut["door.stile.hinge"] == cut["door.stile.latch"]
    # the brace: from a pitch past the hinge stile to an elbow's reach, the gap and half a grip before the latch stile
    low = S + GB + GAP + G / 2 + PITCH
    high = rail - (S + GB + GAP + G / 2)
    run, rise = high - low, top - bottom
    angle = math.atan2(rise, run)
    setback = D / 2 / math.sin(angle) + D / 2 / math.tan(angle) + 1 / 16
    assert cut["door.brace"] == pytest.approx(math.hypot(run, rise) - 2 * setback, abs=1e-3)
    # studs on straights that lean 15 and 30 degrees stand at 75 and 60 to them
    for name, off, slope in (("left", jambs()[0], 15), ("right", jambs()[1], 30)):
        slope = math.radians(slope)
        z = 36 + (47.539 - off * math.sin(slope)) / math.cos(slope)
        held = D / 2 / math.cos(slope) + D / 2 * math.tan(slope) + 1 / 16
        assert cut[f"jamb.front.{name}"] == pytest.approx(z - held - FLANGE, abs=2e-3)


@pytest.mark.parametrize("width", ["28in", "32in", "36in", "40in"])
@pytest.mark.parametrize("size", [{"width": "8ft"}, {"width": "11ft", "tube": "emt-1"}, {"shape": "gothic"}])
def test_a_door_is_at_least_as_wide_as_asked(width, size):
    frame = frame_of("greenhouse", **size, door_width=width, ends="door")
    left, right = (next(m for m in frame.members if m.id == f"jamb.front.{h}") for h in ("left", "right"))
    clear = inches(right.path.start.x - left.path.start.x) - (1.163 if "tube" in size else D)
    asked = float(width[:-2])
    assert clear >= asked - 1e-6
    assert [f.code for f in frame.findings] == (["F-door"] if clear > asked + 0.25 else [])


def test_what_a_door_takes():
    """A ring at both hinges, a collar under the lower one; elbows at the latch; tees at the hinge stile and header."""
    with_door, filmed = (draft_of("greenhouse", **SIZES, ends=e) for e in ("door", "film"))
    count = {n: Counter(j.kind for j in d.jointed.joints) for n, d in (("door", with_door), ("film", filmed))}
    assert count["door"] - count["film"] == Counter(
        {"loose-ring": 2, "collar": 1, "elbow": 2, "tee": 4, "swivel-tee": 2}
    )
    assert count["film"]["swivel-tee"] == 4
    (group,) = with_door.frame.groups
    assert group.turns_on == "jamb.front.left"
    assert len(group.members) == 5


@pytest.mark.parametrize("hinges", ["left", "right"])
def test_the_brace_goes_up_from_the_hinge(hinges):
    """Pressed, it carries the latch side's weight (common practice, no source)."""
    frame = frame_of("greenhouse", **SIZES, hinges=hinges)
    brace = next(m for m in frame.members if m.id == "door.brace").path
    post = next(m for m in frame.members if m.id == f"jamb.front.{hinges}").path.start.x
    low, high = sorted((brace.start, brace.end), key=lambda p: p.z)
    assert abs(low.x - post) < abs(high.x - post)


def test_a_door_that_was_not_asked_for_gives_way_to_film():
    assert not any(m.id.startswith("door") for m in frame_of("greenhouse", width="5ft", height="5ft").members)
    with pytest.raises(InputError) as refused:
        frame_of("greenhouse", width="5ft", height="5ft", ends="door")
    assert {p.key for p in refused.value.problems} >= {"height"}


@pytest.mark.parametrize("shape", ["round", "segmental", "gothic", "gable"])
@pytest.mark.parametrize("anchor", ["stake", "socket", "baseboard", "base-flange"])
def test_every_shape_on_every_anchor_with_vents(shape, anchor):
    draft = draft_of("greenhouse", width="9ft", shape=shape, anchor=anchor, vents="sides")
    assert [f for f in draft.findings if f.severity is not Severity.INFO] == []


def test_a_leg_in_a_socket_or_strapped_to_a_board_is_held_there():
    """Five hoops, ten legs; a socket stands 4 in above the ground, the base rail's clamp above it."""
    for anchor in ("socket", "baseboard"):
        frame = frame_of("greenhouse", **SIZES, anchor=anchor)
        assert len(frame.supports) == 10
        assert all(m.end_a is EndKind.OPEN for m in frame.members if m.id.startswith("hoop"))
        rail = next(m for m in frame.members if m.id == "base.left").path.start.z
        assert inches(rail) == pytest.approx(4 + GAP + G / 2 if anchor == "socket" else 3)


def test_sides_that_roll_up_open_a_fifth_of_the_floor():
    """20 % of 96 in, half on either side: 9.6 in above the base rail at 3 in, clear of the brace's clamp at 7 in.

    With three hoops the second brace sits 4 in higher on the middle one, at 11: a pitch of 2.125 in above that.
    """
    frame = frame_of("greenhouse", **SIZES, vents="sides", ends="film")
    rail = next(m for m in frame.members if m.id == "vent.left").path.start
    assert inches(rail.z) == pytest.approx(3 + 9.6)
    assert inches(rail.x) == pytest.approx(D / 2 - (D + 3 / 16))  # outside the leg by a coupler's offset
    (line,) = [f for f in frame.facts if f.label == "Vents"]
    assert line.text.startswith("20 % of the floor's area opens")
    short = frame_of("greenhouse", **{**SIZES, "length": "6ft"}, vents="sides", ends="film")
    rail = next(m for m in short.members if m.id == "vent.left").path.start
    assert 11 + PITCH - 0.01 < inches(rail.z) < 11 + PITCH + 1


def test_the_pieces_of_film():
    """Round 8 ft on a wall of 36 in: the tube's own length round 2 x 111.054 in (worked out for 15 degree bends)."""
    frame = frame_of("greenhouse", **SIZES, ends="film")
    items = {s.item: s.quantity for s in frame.supplies}
    girth = 2 * 111.054 + math.pi * D
    assert girth + 36 == pytest.approx(261.0, abs=0.05)
    assert items['greenhouse film, UV, 6 mil for over the hoops, 261" x 168"'] == 1  # 144 and 2 x 12 folded round
    assert items['greenhouse film, UV, 6 mil for an end, 120" x 102"'] == 2  # 96 + 24, 84 + 18 to tuck in
    # a clip each 24 in: 2 x 144/24 and 2 x 225/24 up
    assert items["snap clip to the tubes' outside, on base rails, end hoops and doors"] == 2 * 6 + 2 * 10
    bare = frame_of("greenhouse", **SIZES, cover="none")
    assert bare.cover is None
    assert not any("film" in s.item or "clip" in s.item for s in bare.supplies)


def test_a_greenhouse_with_a_door_goes_together_and_holds_no_warning():
    design = design_of("greenhouse")
    assert [f.code for f in design.findings if f.severity is not Severity.INFO] == []


@pytest.mark.parametrize(("values", "studs"), [({}, 4), ({"width": "14ft", "tube": "emt-1", "height": "10ft"}, 8)])
def test_thresholds_are_anchored_beside_every_stud(values, studs):
    """8 ft in bays of 4 ft at most: two studs or jambs an end; 14 ft: four."""
    frame = frame_of("greenhouse", **values)
    assert sum(1 for m in frame.members if m.id.startswith(("stud", "jamb"))) == studs
    bought = {s.item.split(",")[0]: s.quantity for s in frame.supplies}
    assert bought["ground screw or driven anchor for a threshold"] == studs
    assert bought["screw for a stud's base flange"] == 3 * studs
