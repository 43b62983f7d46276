"""What each operation does to a frame, worked out by hand; lengths in mm."""

from __future__ import annotations

import pytest

from tests.unit.joints.test_planted_faults import SOUND, WORKSHOP
from tubeframe.errors import FrameError
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.vector import Vec
from tubeframe.joints.repair.apply import applied
from tubeframe.joints.repair.operations import CutOut, DropTube, EndPiece, Move, MoveEnds, Resplit, Stretch, Trim
from tubeframe.joints.repair.scene import scene_of
from tubeframe.joints.resolve import resolved

KNEE = ("knee", [[0, 0, 400], [200, 0, 600]], ("joint", "joint"))


def _frame(*members, **tables):
    rows = [{"id": name, "path": path, "ends": list(ends)} for name, path, ends in members]
    document = {"schema": "tubeframe.frame/1", "name": "frame", "units": "mm", "member": rows, **tables}
    return frame_from_document(document, WORKSHOP, "frame.toml")


def _member(frame, name):
    return next(m for m in frame.members if m.id == name)


def _ends(frame, name):
    path = _member(frame, name).path
    return tuple(path.start), tuple(path.end)


def test_a_leg_that_is_moved_up_keeps_its_foot_on_the_floor():
    moved = applied(_frame(*SOUND), Move(members=("left",), shift=Vec(0, 0, 30)))

    assert _ends(moved, "left") == ((0, 0, 0), (0, 0, 930))


def test_a_leg_that_is_moved_aside_takes_the_ends_of_its_rails_along():
    moved = applied(_frame(*SOUND), Move(members=("left",), shift=Vec(20, 0, 0)))

    assert _ends(moved, "left") == ((20, 0, 0), (20, 0, 900))
    assert [_ends(moved, n)[0] for n in ("low", "high")] == [(20, 0, 200), (20, 0, 600)]


def test_a_knee_follows_the_rail_that_it_holds():
    """At 45 degrees from 400 up the post, it meets a rail at 630 after 230 along it; the rail stays on its posts."""
    moved = applied(_frame(*SOUND, KNEE), Move(members=("high",), shift=Vec(0, 0, 30)))

    assert _ends(moved, "knee") == (pytest.approx((0, 0, 400)), pytest.approx((230, 0, 630)))
    assert _ends(moved, "high") == (pytest.approx((0, 0, 630)), pytest.approx((800, 0, 630)))


def test_a_knee_that_is_moved_up_a_post_keeps_its_angle_and_both_seats():
    """25 up: from 425 it meets the rail at 600 after 175."""
    moved = applied(_frame(*SOUND, KNEE), Move(members=("knee",), shift=Vec(0, 0, 25)))

    assert _ends(moved, "knee") == (pytest.approx((0, 0, 425)), pytest.approx((175, 0, 600)))


def test_what_is_measured_from_a_moves_with_a():
    """100 more at A: a sleeve 1500 from A is at 1600 then, a load from 200 to 400 between 300 and 500."""
    frame = _frame(
        ("long", [[0, 0, 500], [3000, 0, 500]], ("cap", "cap")),
        load=[{"name": "use", "member": "long", "from": 200, "to": 400, "total": "90 kg"}],
    )
    frame = applied(frame, Resplit(members=("long",), places=(1500.0,)))
    longer = applied(frame, Stretch(ends=(("long", TubeEnd.A),), by=100.0))

    assert _ends(longer, "long") == ((-100, 0, 500), (3000, 0, 500))
    assert _member(longer, "long").split_at == (1600.0,)
    assert longer.loads[0].span == (300.0, 500.0)


def test_the_other_end_stays_where_one_end_is_moved():
    moved = applied(_frame(*SOUND), MoveEnds(ends=(("low", TubeEnd.B),), shift=Vec(0, 5, 3)))

    assert _ends(moved, "low") == ((0, 0, 200), (800, 5, 203))


def test_a_fitting_that_is_asked_for_goes_with_its_tubes():
    """A tee is asked for on the left post where the upper rail ends; the rail goes 30 up."""
    frame = _frame(*SOUND, joint=[{"at": [0, 0, 600], "kind": "tee"}, {"at": [800, 0, 200], "kind": "tee"}])
    moved = applied(frame, Move(members=("high",), shift=Vec(0, 0, 30)))

    assert [tuple(p.at) for p in moved.preferences] == [pytest.approx((0, 0, 630)), (800, 0, 200)]


def test_nothing_left_of_a_tube_is_no_operation():
    with pytest.raises(FrameError):
        applied(_frame(*SOUND), Stretch(ends=(("low", TubeEnd.B),), by=-800.0))


def test_a_doubled_tube_hands_its_load_on():
    frame = _frame(
        *SOUND,
        ("again", [[0, 0, 600], [800, 0, 600]], ("joint", "joint")),
        load=[{"name": "use", "member": "again", "total": "90 kg"}],
    )
    left = applied(frame, DropTube(member="again", twin="high"))

    assert [m.id for m in left.members] == ["left", "right", "low", "high"]
    assert left.loads[0].on == "high"


def test_ends_get_pieces():
    capped = applied(_frame(*SOUND), EndPiece(ends=(("low", TubeEnd.A), ("high", TubeEnd.B)), kind=EndKind.CAP))

    assert _member(capped, "low").ends == (EndKind.CAP, EndKind.JOINT)
    assert _member(capped, "high").ends == (EndKind.JOINT, EndKind.CAP)


BOARD = {
    "id": "top",
    "corners": [[0, 0, 700], [800, 0, 700], [800, 300, 700], [0, 300, 700]],
    "thickness": 18,
    "pockets": [[10, 20, 60, 80, 9]],
}


def test_a_board_that_is_cut_back_keeps_its_pockets_in_place():
    """30 off the left edge: the pocket from 10 to 60 is 0 to 30 from the new edge."""
    cut = applied(_frame(*SOUND, panel=[BOARD]), Trim(board="top", edge=Vec(-1, 0, 0), by=30.0)).panels[0]

    assert (tuple(cut.placement.origin), cut.length, cut.width) == ((30, 0, 700), 770, 300)
    assert (tuple(cut.pockets[0].low), tuple(cut.pockets[0].high)) == ((0, 20, 0), (30, 80, 9))


def test_a_board_is_cut_out_beside_what_was_cut_out():
    frame = _frame(*SOUND, panel=[BOARD])
    once = frame.panels[0].pockets
    cut = applied(frame, CutOut(board="top", pockets=once)).panels[0]

    assert cut.pockets == once + once


SHELF = (
    *((f"post.{x}.{y}", [[x, y, 0], [x, y, 900]], ("foot", "cap")) for x in (0, 800) for y in (0, 400)),
    *((f"rail.{y}", [[0, y, 600], [800, y, 600]], ("joint", "joint")) for y in (0, 400)),
    ("joist", [[400, 0, 600], [400, 400, 600]], ("joint", "joint")),
)
DECK = {
    "id": "deck",
    "corners": [[x, y, 600 + 23.4188 / 2] for x, y in ((100, 0), (700, 0), (700, 400), (100, 400))],
    "thickness": 18,
    "pockets": [[270, 0, 330, 60, 12], [270, 340, 330, 400, 12]],
}


def test_what_cannot_stay_joined_goes_with_a_rail():
    """A rail that goes up takes the joist along, that the other rail, and both the board; the posts stay.

    One that goes back takes its posts along, and slides on the joist.
    """
    frame = _frame(*SHELF, panel=[DECK])
    scene = scene_of(frame, resolved(frame, WORKSHOP), WORKSHOP)
    up, along = (scene.move(("rail.0",), Vec(*v)) for v in ((0, 0, 20), (0, 20, 0)))

    assert (up.members, up.boards) == (("rail.0", "rail.400", "joist"), ("deck",))
    assert along.members == ("post.0.0", "post.800.0", "rail.0")
    assert scene.move(("rail.0",), Vec(0, 0, 20), fixed=("joist",)) is None


def test_a_board_takes_all_that_carries_it_along():
    """Without a joist, only the board holds the two rails at one height."""
    frame = _frame(*SHELF[:-1], panel=[{**DECK, "pockets": []}])
    scene = scene_of(frame, resolved(frame, WORKSHOP), WORKSHOP)
    up = scene.move(("rail.0",), Vec(0, 0, 20))

    assert (up.members, up.boards) == (("rail.0", "rail.400"), ("deck",))
