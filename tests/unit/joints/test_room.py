"""What has room and what has not: tubes, bends, fittings, boards, the floor. Hand arithmetic in millimetres.

EMT 3/4 is 23.4188 thick, EMT 1 29.54; a fitting's body stands out 3/8 in = 9.525 beyond the tube (generic table).
"""

from __future__ import annotations

import math

import pytest

from tests.bays import rack_of
from tests.unit.joints.test_planted_faults import OUT, SOUND, WORKSHOP, post, rail
from tubeframe.errors import Severity
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.member import EndKind
from tubeframe.geometry.corners import through
from tubeframe.geometry.grid import near_pairs
from tubeframe.geometry.vector import Vec
from tubeframe.joints.joint import uses_by_tube
from tubeframe.joints.resolve import jointed
from tubeframe.joints.things import things_of

D = 23.4188
R = D / 2.0
SHELL = R + 9.525
"""A fitting's body, from the middle of its tube."""


def _frame(*members, **tables):
    rows = [{"id": name, "path": path, **({"ends": list(ends)} if ends else {})} for name, path, ends in members]
    document = {"schema": "tubeframe.frame/1", "name": "room", "units": "mm", "member": rows, **tables}
    return frame_from_document(document, WORKSHOP, "room.toml")


def _jointed(*members, **tables):
    return jointed(_frame(*members, **tables), WORKSHOP)


def _told(found, *codes):
    return [f for f in found.findings if f.code in codes]


def _errors(found):
    return [(f.code, f.subjects) for f in found.findings if f.severity is Severity.ERROR]


def _board(name, x, y, z, thickness=18.0, **more):
    corners = [[x[0], y[0], z], [x[1], y[0], z], [x[1], y[1], z], [x[0], y[1], z]]
    return {"id": name, "corners": corners, "thickness": thickness, **more}


STAND = (
    post("fl", 0),
    post("fr", 800),
    post("bl", 0, 400),
    post("br", 800, 400),
    rail("front", 700),
    rail("back", 700, y=400),
    ("left", [[0, 0, 600], [0, 400, 600]], ("joint", "joint")),
    ("right", [[800, 0, 600], [800, 400, 600]], ("joint", "joint")),
)
"""Four posts through, rails front and back at 700, ties at the sides at 600."""
TOP = 700.0 + R
BETWEEN = (55.0, 745.0)
"""Clear of the posts' fittings: a tee reaches setback 13.3 and branch grip from a post's middle."""


def test_a_board_on_its_rails_between_the_posts_is_carried_by_both_where_it_lies():
    found = _jointed(*STAND, panel=[_board("deck", BETWEEN, (0, 400), TOP)])

    assert _errors(found) == []
    assert [(b.board, b.tube) for b in found.bearings] == [("deck", "front"), ("deck", "back")]
    for bearing in found.bearings:
        assert (bearing.start, bearing.end) == pytest.approx((54.5, 745.5))  # half a millimetre over an edge counts


@pytest.mark.parametrize(("sunk", "codes"), [(0.4, []), (0.6, ["J-panel"] * 2), (7.62, ["J-panel"] * 2)])
def test_a_board_sunk_into_its_rails(sunk, codes):
    found = _jointed(*STAND, panel=[_board("deck", BETWEEN, (0, 400), TOP - sunk)])
    told = _told(found, "J-panel")

    assert [f.code for f in told] == codes
    assert [f.fact.short for f in told] == pytest.approx([sunk] * len(codes), abs=0.03)
    assert _told(found, "J-panel-floats") == []


def test_fittings_stand_in_a_board_unless_it_has_a_pocket_for_them():
    """Over the tees at both posts the body stands 9.525 above the rail, less 0.5 for a branch: 9.025 into the board."""
    whole = (25.0, 775.0)
    deck = _board("deck", whole, (0.0, 400.0), TOP)
    found = _jointed(*STAND, panel=[deck])
    told = _told(found, "J-panel-fitting")

    assert len(told) == 4
    assert max(f.fact.short for f in told) == pytest.approx(SHELL - R - 0.5, abs=0.03)

    edges = [(0, 0), (690, 0), (0, 360), (690, 360)]
    for depth, left in ((10.0, 0), (7.0, 4)):
        pockets = [[x, y, x + 60, y + 40, depth] for x, y in edges]
        found = _jointed(*STAND, panel=[{**deck, "pockets": pockets}])
        assert len(_told(found, "J-panel-fitting")) == left


def test_a_board_with_its_corners_notched_goes_between_running_posts():
    wide = _board("deck", (-30.0, 830.0), (-30.0, 430.0), TOP)
    notches = [[x, y, x + 90, y + 70, 18.0] for x in (0, 770) for y in (0, 390)]

    assert {f.code for f in _told(_jointed(*STAND, panel=[wide]), "J-panel")} == {"J-panel"}
    assert _told(_jointed(*STAND, panel=[{**wide, "pockets": notches}]), "J-panel") == []


def test_a_board_that_floats_says_what_is_under_it():
    found = _jointed(*STAND, panel=[_board("deck", BETWEEN, (0, 400), TOP + 12.0)])
    (told,) = _told(found, "J-panel-floats")

    assert found.bearings == ()
    assert told.fact.nearest in {"front", "back"}
    assert told.fact.gap == pytest.approx(12.0)


def test_a_board_on_strips_is_carried_through_them():
    strips = [_board(f"strip.{k}", BETWEEN, y, TOP, 12.0) for k, y in enumerate(((-20, 20), (380, 420)))]
    found = _jointed(*STAND, panel=[_board("top", (100, 700), (0, 400), TOP + 12.0), *strips])

    assert _errors(found) == []
    through = [(b.tube, b.through, b.start, b.end) for b in found.bearings if b.board == "top"]
    assert [t[:2] for t in through] == [("front", "strip.0"), ("back", "strip.1")]
    assert [t[2:] for t in through] == [pytest.approx((99.5, 700.5))] * 2


def test_boards_in_each_other():
    boards = [_board("one", (60, 420), (0, 400), TOP), _board("other", (400, 740), (0, 400), TOP)]
    (told,) = _told(_jointed(*STAND, panel=boards), "J-panel-panel")

    assert told.subjects == ("one", "other")
    assert told.fact.short == pytest.approx(20.0, abs=0.03)

    beside = [boards[0], _board("other", (420, 740), (0, 400), TOP)]
    assert _told(_jointed(*STAND, panel=beside), "J-panel-panel") == []


@pytest.mark.parametrize(("off", "fouls"), [(0.0, True), (22.0, True), (24.0, False)])
def test_a_rod_by_a_bend(off, fouls):
    """A rod across a bend of radius 140, `off` outward from the middle of its arc, at 45 degrees."""
    middle = 140.0 * (1.0 - 0.5**0.5), 760.0 + 140.0 * 0.5**0.5
    x, z = middle[0] - off * 0.5**0.5, middle[1] + off * 0.5**0.5
    hoop = ("hoop", [[0, 0, 0], {"at": [0, 0, 900], "radius": 140}, [900, 0, 900]], ("stake", "cap"))
    told = _told(_jointed(hoop, ("rod", [[x, -300, z], [x, 300, z]], ("cap", "cap"))), "J-fouls")

    assert [f.subjects for f in told] == [("hoop", "rod")] * fouls
    assert [f.fact.on_bend for f in told] == [True] * fouls
    assert [f.fact.distance for f in told] == pytest.approx([off] * fouls, abs=0.3)


@pytest.mark.parametrize(("gap", "code"), [(R + 4.0, None), (R - 0.4, None), (R - 2.0, "J-fouls"), (3.0, "J-fouls")])
def test_a_tube_that_ends_square_before_another_is_free_of_it(gap, code):
    """A free end without a cap stops before the post's middle by a gap: inside its wall it is told, else not."""
    arm = ("arm", [[400, 0, 600], [400, 400.0 - gap, 600]], ("joint", "open"))
    found = _jointed(*STAND[:4], rail("front", 600), rail("back", 600, y=400), *STAND[6:], arm)
    told = [f for f in found.findings if f.severity is Severity.ERROR and "arm" in f.subjects]

    assert [f.code for f in told] == ([code] if code else [])
    if code:
        assert (told[0].fact.tube, told[0].fact.other) == ("arm", "back")
        assert told[0].fact.short == pytest.approx(R - gap, abs=0.03)


@pytest.mark.parametrize(("apart", "fouls"), [(2.0 * D + 1.0, True), (2.0 * D - 1.0, False)])
def test_what_two_tubes_do_near_the_fitting_that_holds_both_is_its_matter(apart, fouls):
    """A bent rail that leaves a post by a tee and comes back to it: told farther than twice both radii from the tee.

    No shop bends it so tight: a text frame would be refused.
    """
    corners = [Vec(x, 0, z) for x, z in ((0, 600), (150, 600), (150, 600 + apart), (5, 600 + apart))]
    frame = FrameBuilder(name="room", tube="emt-3/4")
    frame.tube("left", (Vec(0, 0, 0), Vec(0, 0, 900)), ends=(EndKind.FOOT, EndKind.CAP))
    frame.tube("rail", through(corners, [20.0, 20.0]), ends=(EndKind.JOINT, EndKind.OPEN))
    told = _told(jointed(frame.build(), WORKSHOP), "J-fouls")

    assert bool(told) is fouls


def test_a_bend_in_another_tubes_fitting_is_told():
    """A hoop's bend passes 16 mm beside a post that it is not tied to, at the height of a tee on the post."""
    low = 900.0 - 140.0 * (1.0 - 0.5**0.5)
    x = 140.0 * (1.0 - 0.5**0.5)
    hoop = ("hoop", [[0, 0, 0], {"at": [0, 0, 900], "radius": 140}, [900, 0, 900]], ("stake", "cap"))
    beside = D + 3.0
    rows = [post("post", x, beside), ("arm", [[x, beside, low], [x, 400, low]], ("joint", "cap"))]

    assert [f.fact.tube for f in _told(_jointed(hoop, *rows), "J-body")] == ["hoop"]


@pytest.mark.parametrize(("height", "told"), [(0.0, []), (0.4, []), (3.0, [3.0]), (-3.0, [-3.0])])
def test_a_foot_off_the_floor(height, told):
    left = ("left", [[0, 0, height], [0, 0, 900]], ("foot", "cap"))
    found = _jointed(left, *SOUND[1:])

    assert [f.fact.height for f in _told(found, "J-off-floor")] == pytest.approx(told)


def test_a_flange_may_be_bolted_to_a_wall():
    stay = ("stay", [[400, 0, 600], [400, 150, 600]], ("joint", "base-flange"))
    wall = [{"id": "wall", "at": [0, 150, 0], "toward": [0, -1, 0]}]

    assert _told(_jointed(*SOUND, stay, wall=wall), "J-off-floor", "J-foot-slope", "J-wall") == []
    assert len(_told(_jointed(*SOUND, stay), "J-off-floor")) == 1


def test_a_square_foot_on_a_post_that_leans():
    """By 10 degrees: the foot's edge, 13.3 from its middle, would stand 2.3 in the floor."""
    lean = 900 * 0.17633
    found = _jointed(("left", [[0, 0, 0], [lean, 0, 900]], ("foot", "cap")), *SOUND[1:])
    (told,) = _told(found, "J-foot-slope")

    assert told.severity is Severity.WARNING
    assert told.fact.lean == pytest.approx(10.0, abs=0.01)
    assert told.fact.short == pytest.approx((R + 1.5875) * 0.17365, abs=0.01)


@pytest.mark.parametrize(("z", "subjects"), [(12.0, []), (10.0, [("under",)])])
def test_a_tube_below_the_floor(z, subjects):
    """A tube that lies 12 high clears the floor by 0.29."""
    under = ("under", [[400, -200, z], [400, 200, z]], ("open", "open"))

    assert [f.subjects for f in _told(_jointed(*SOUND, under), "J-below-floor")] == subjects


def test_a_shell_below_the_floor_where_the_tube_is_not():
    """A coupler's sleeve is 21.2 in radius: around a tube 15 high it is 6.2 under the floor."""
    rows = [
        ("low", [[-60, 0, 15], [860, 0, 15]], ("cap", "cap")),
        ("over", [[400, -100, 15 + OUT], [400, 300, 15 + OUT]], ("cap", "cap")),
    ]
    told = _told(_jointed(*rows), "J-below-floor")

    assert [f.subjects for f in told] == [("low", "over")]
    assert told[0].fact.short == pytest.approx(SHELL - 15.0, abs=0.01)


def test_a_tube_is_compared_with_its_neighbours_only_however_long_the_rack_is():
    """Pairs looked at a tube and a fitting stay the same from 66 tubes to 246."""
    counts = []
    for bays in (8, 33):
        frame = rack_of(bays)
        found = jointed(frame, WORKSHOP)
        things = things_of(frame, found.tubes, found.joints, uses_by_tube(found.joints), WORKSHOP)
        rows = (things.tubes, things.fittings)
        counts.append([near_pairs(t.hull for t in row).looked_at / len(row) for row in rows])

    assert counts[1][0] <= counts[0][0] * 1.1 <= 25.0
    assert counts[1][1] <= counts[0][1] * 1.1 <= 12.0


def test_a_leg_that_goes_through_a_board_does_not_carry_it():
    found = _jointed(*STAND, panel=[_board("deck", (-30.0, 830.0), (-30.0, 430.0), 800.0)])

    assert found.bearings == ()
    assert len(_told(found, "J-panel")) == 4


def test_a_cap_in_a_tube_that_its_own_tube_ends_in_is_told_once():
    arm = ("arm", [[400, 0, 600], [400, 393, 600]], ("joint", "cap"))
    found = _jointed(*STAND[:4], rail("front", 600), rail("back", 600, y=400), *STAND[6:], arm)

    assert [f.code for f in found.findings if "arm" in f.subjects and f.severity is Severity.ERROR] == ["J-fouls"]


def test_a_caps_thin_shell_gives_way_to_the_other_clamp_of_a_coupler():
    """A brace at 30 degrees that goes on past a coupler by the least overhang, 30.16: the clamp is 1.5 in its cap."""
    way = (math.cos(math.radians(30.0)), math.sin(math.radians(30.0)))
    ends = [[400 + s * way[0], OUT, 600 + s * way[1]] for s in (-300.0, 30.17)]
    found = _jointed(*STAND[:4], rail("front", 600), *STAND[5:], ("brace", ends, ("cap", "cap")))

    assert "swivel-coupler" in {j.kind for j in found.joints}
    assert [f for f in _told(found, "J-body") if "cap" in {f.fact.first.kind, f.fact.second.kind}] == []
