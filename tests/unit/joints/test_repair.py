from __future__ import annotations

import pytest

from tests.unit.joints.test_planted_faults import OUT, SOUND, WORKSHOP, _frame, post, rail
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import Severity
from tubeframe.geometry.units import Units
from tubeframe.joints.repair.operations import Move
from tubeframe.joints.repair.search import repairs
from tubeframe.joints.resolve import jointed
from tubeframe.words.repairs import repair_words


def _words(frame):
    return [repair_words(r, Units.INCH) for r in repairs(frame, WORKSHOP)]


def _errors(frame):
    return [f.code for f in jointed(frame, WORKSHOP).findings if f.severity is Severity.ERROR]


CROWDED = {
    "two rails": (*SOUND, rail("middle", 240)),
    "a rail over the foot": (post("left", 0), post("right", 800), rail("low", 30), rail("high", 600)),
    "two couplers": (
        *SOUND,
        ("a", [[400, OUT, 150], [400, OUT, 650]], ("cap", "cap")),
        ("b", [[430, OUT, 150], [430, OUT, 650]], ("cap", "cap")),
    ),
}


@pytest.mark.parametrize("case", CROWDED)
def test_what_is_offered_was_checked(case):
    frame = _frame(*CROWDED[case])
    before, offered = _errors(frame), repairs(frame, WORKSHOP)

    assert offered
    for one in offered:
        assert len(_errors(one.after)) < len(before)
        assert set(_errors(one.after)) <= set(before)


def test_the_first_repair_by_hand():
    """40 mm apart, 2 1/8 in = 53.975 mm needed: 13.975 mm, and nothing else is wrong then."""
    frame = _frame(*SOUND, rail("middle", 240))
    first = repairs(frame, WORKSHOP)[0]

    assert repair_words(first, Units.INCH) == 'move middle 9/16" up: to 10" from the lower end of left and right'
    moved = {m.id: m for m in first.after.members}["middle"]
    assert moved.path.start.z == pytest.approx(240 + 13.975 + 0.05)
    assert _errors(first.after) == []


def test_a_sound_frame_gets_no_offer():
    assert repairs(_frame(*SOUND), WORKSHOP) == ()


def test_a_move_that_breaks_something_else_is_not_offered():
    """Between two rails there is no room for a third either way."""
    frame = _frame(*SOUND[:2], rail("low", 200), rail("middle", 240), rail("next", 300), rail("high", 600))
    words = _words(frame)

    assert all("middle" not in w or "up" not in w for w in words)


def test_two_ends_on_a_post_become_one_fitting():
    """A tee 20 mm over another, square to it: moved onto one point, a side-outlet tee takes both."""
    frame = _frame(*SOUND, ("side", [[0, 0, 220], [0, 300, 220]], ("joint", "cap")))
    words = _words(frame)

    assert 'move side 13/16" down: to 7 7/8" from the lower end of left; use 1 side-outlet-tee' in words


def test_a_board_stays_on_its_rail():
    """The rail's top at 600 + D/2 carries the board: the rail under it moves first, and this one not without it."""
    outside = 23.4188
    board = {
        "id": "top",
        "corners": [[x, y, 600 + outside / 2] for x, y in ((-50, -50), (850, -50), (850, 250), (-50, 250))],
        "thickness": 18,
    }
    legs = [(n, [[x, 0, 0], [x, 0, 600]], ("foot", "joint")) for n, x in (("left", 0), ("right", 800))]
    frame = _frame(*legs, rail("high", 600), rail("near", 575), panels=[board])
    offered = repairs(frame, WORKSHOP)

    assert [type(r.operation) for r in offered][:1] == [Move]
    assert offered[0].operation.members == ("near",)
    for one in offered:
        high = next(m for m in one.after.members if m.id == "high")
        assert one.after.panels[0].placement.origin.z - high.path.start.z == pytest.approx(outside / 2)


def test_nothing_is_moved_into_the_ground():
    frame = _frame(post("left", 0), post("right", 800), rail("low", 30))
    for offered in repairs(frame, WORKSHOP):
        assert min(p.z for m in offered.after.members for p in (m.path.start, m.path.end)) >= -0.5


def test_an_end_that_just_misses_a_tube_is_moved_onto_it():
    """25 mm beside the post, 1 in as a tape shows it; 400 mm up is 15 3/4 in."""
    frame = _frame(*SOUND, ("back", [[25, 0, 400], [25, 500, 400]], ("joint", "cap")))

    assert _words(frame)[0] == 'move back 1" left: to 15 3/4" from the lower end of left; use 1 tee'


def test_a_repair_that_a_measured_fitting_forbids_is_not_offered():
    """A swivel tee that holds 0.6 in at every angle cannot be turned to 30 degrees; the rest is still tried."""
    shop = workshop_from_document({"fittings": {"swivel-tee": {"setback": "0.6 in"}}}, "my.toml")
    knee = ("knee", [[0, 0, 400], [0, 120, 400 + 400]], ("joint", "cap"))
    frame = _frame(*SOUND, knee)

    assert [f.code for f in jointed(frame, shop).findings if f.severity is Severity.ERROR] == ["J-no-fitting"]
    assert all(_errors_in(r.after, shop) == [] for r in repairs(frame, shop))


def _errors_in(frame, shop):
    return [f.code for f in jointed(frame, shop).findings if f.severity is Severity.ERROR]
