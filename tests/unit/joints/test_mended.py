"""A right frame spoiled by one fault comes back: feet, outline and every other dimension as before."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from tests.unit.joints.test_operations import DECK, SHELF, _frame
from tests.unit.joints.test_planted_faults import BOARD, FAULTS, OUT, SOUND, WORKSHOP
from tests.unit.joints.test_planted_faults import _frame as _planted
from tubeframe.frame.member import EndKind
from tubeframe.geometry.closest import gap_to
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import Vec
from tubeframe.joints.repair import search
from tubeframe.joints.repair.operations import AddTube, Stretch, Together
from tubeframe.joints.repair.search import mended, repairs
from tubeframe.joints.resolve import resolved

LEAST = 47.625 / 2 + 6.35
"""Past the middle of a tee: half its grip of 1 7/8 in, and 1/4 in (common practice, no source) [mm]."""
RIGHT = _frame(
    *SHELF,
    ("knee", [[0, 0, 400], [200, 0, 200]], ("joint", "joint")),
    ("low", [[0, 0, 200], [800, 0, 200]], ("joint", "joint")),
    ("edge", [[-LEAST - 0.02, OUT, 300], [800 + LEAST + 0.02, OUT, 300]], ("cap", "cap")),
    panel=[DECK],
)


def _with(frame, name, **changes):
    return replace(frame, members=tuple(replace(m, **changes) if m.id == name else m for m in frame.members))


def _drawn(name, start, end, **changes):
    return _with(RIGHT, name, path=line(Vec(*start), Vec(*end)), **changes)


def _board(by):
    panel = RIGHT.panels[0]
    placement = replace(panel.placement, origin=panel.placement.origin + Vec(0, 0, by))
    return replace(RIGHT, panels=(replace(panel, placement=placement),))


def _lifted(by):
    up = Vec(0, 0, by)
    members = tuple(replace(m, path=line(m.path.start + up, m.path.end + up)) for m in RIGHT.members)
    return replace(_board(by), members=members)


SPOILED = {
    "a rail too short": _drawn("low", (0, 0, 200), (789, 0, 200)),
    "a rail too long": _drawn("low", (0, 0, 200), (811, 0, 200)),
    "a rail's end aside": _drawn("low", (0, 0, 200), (800, 7, 200)),
    "a rail aside": _drawn("low", (0, 7, 200), (800, 7, 200)),
    "a rail with a cap where it should be held": _with(RIGHT, "low", end_b=EndKind.CAP),
    "a rail that is there twice": replace(
        RIGHT, members=(*RIGHT.members, replace(next(m for m in RIGHT.members if m.id == "low"), id="again"))
    ),
    "a knee too short": _drawn("knee", (0, 0, 400), (190, 0, 210)),
    "a knee moved off": _drawn("knee", (0, 9, 400), (200, 9, 200)),
    "a foot in the air": _drawn("post.800.400", (800, 400, 12), (800, 400, 900)),
    "a foot in the ground": _drawn("post.800.400", (800, 400, -12), (800, 400, 900)),
    "all feet in the air": _lifted(12.0),
    "a clamped tube too short": _drawn("edge", (-20, OUT, 300), (800 + LEAST + 0.02, OUT, 300)),
    "a clamped tube too near": _drawn("edge", (-LEAST - 0.02, OUT - 6, 300), (800 + LEAST + 0.02, OUT - 6, 300)),
    "a board that floats": _board(10.0),
    "a board sunk into its rails": _board(-5.0),
}


def _codes(frame):
    return [f.code for f in resolved(frame, WORKSHOP).findings if f.severity == "error"]


def test_the_right_frame_is_right():
    assert _codes(RIGHT) == []


@pytest.mark.parametrize("fault", SPOILED)
def test_one_fault_is_found_and_mended_back(fault):
    assert _codes(SPOILED[fault])
    found = mended(SPOILED[fault], WORKSHOP)

    assert found.left == 0
    assert len(found.done) == 1
    assert [m.id for m in found.frame.members] == [m.id for m in RIGHT.members]
    for made, right in zip(found.frame.members, RIGHT.members, strict=True):
        assert made.ends == right.ends
        assert made.path.start.distance(right.path.start) < 0.5
        assert made.path.end.distance(right.path.end) < 0.5
    assert found.frame.panels[0].placement.origin.distance(RIGHT.panels[0].placement.origin) < 0.5


def test_both_posts_are_made_longer_by_one_change():
    """The rail's tees are 15 below the posts' ends, and need 30.16."""
    members, _ = FAULTS["a rail at the very top"]
    found = mended(_planted(*members), WORKSHOP)

    assert [type(r.operation) for r in found.done] == [Stretch]
    assert {name for name, _ in found.done[0].operation.ends} == {"left", "right"}
    assert found.done[0].operation.by == pytest.approx(LEAST - 15 + 0.05)


def test_no_tube_is_added_where_a_longer_one_does():
    """It stops 11 below the rail that it is clamped to behind: 11 and the overhang longer."""
    frame = _planted(*SOUND, ("hanger", [[400, OUT, 250], [400, OUT, 589]], ("cap", "cap")))
    first = repairs(frame, WORKSHOP)[0]

    assert isinstance(first.operation, Stretch)
    assert first.operation.by == pytest.approx(11 + LEAST + 0.05)
    assert not any(isinstance(r.operation, AddTube) for r in repairs(frame, WORKSHOP)[:1])


@pytest.mark.parametrize("fault", FAULTS)
def test_no_end_is_capped_inside_a_tube(fault):
    members, code = FAULTS[fault]
    frame = _planted(*members, panels=[BOARD] if code == "J-panel" else ())
    for offer in repairs(frame, WORKSHOP):
        for member in offer.after.members:
            for kind, point in zip(member.ends, (member.path.start, member.path.end), strict=True):
                others = (m for m in offer.after.members if m.id != member.id)
                assert kind is not EndKind.CAP or all(gap_to(m.path, point) > 23.4188 / 2 for m in others)


def test_a_loose_end_is_mended_though_that_uncovers_what_is_amiss_at_the_other_posts_too():
    """Rails 25 apart at all posts; one of them is too short at one."""
    levels = [
        (f"{n}.{z}", [[0, 0, z], [x, 0, z]], ("joint", "joint")) for n, z, x in (("a", 300, 800), ("b", 325, 790))
    ]
    found = mended(_planted(*SOUND, *levels), WORKSHOP)

    assert found.left == 0
    assert isinstance(found.done[0].operation, Stretch)
    assert found.done[0].operation.by == pytest.approx(10.0)


def test_one_change_mends_the_same_fault_on_both_sides():
    """Knees that a swivel tee does not take: their upper ends go the same way at both posts."""
    frame = _planted(
        *SOUND,
        *((f"arm.{x}", [[x, 0, 800], [x, 300, 800]], ("joint", "cap")) for x in (0, 800)),
        *((f"knee.{x}", [[x, 0, 400], [x, 200, 800]], ("joint", "joint")) for x in (0, 800)),
    )
    found = mended(frame, WORKSHOP)

    assert found.left == 0
    assert len(found.done) == 1
    assert not isinstance(found.done[0].operation, Together)


def test_the_whole_frame_is_checked_a_few_times_only(monkeypatch):
    """Counted, not timed: once at first, and at most three times a repair."""
    counted = Counter()

    def resolve(frame, workshop):
        counted["whole"] += 1
        return resolved(frame, workshop)

    monkeypatch.setattr(search, "resolved", resolve)
    frame = _drawn("low", (0, 0, 200), (789, 0, 200))
    found = mended(_with(frame, "joist", path=line(Vec(400, 0, 600), Vec(400, 380, 600))), WORKSHOP)

    assert len(found.done) == 2
    assert counted["whole"] <= 1 + 3 * len(found.done)


def test_a_bar_that_is_clamped_on_is_made_long_enough_at_once():
    """25 behind the posts where a coupler holds it 28.1813 away, and 20 past them where it needs the overhang."""
    frame = _planted(*SOUND, ("bar", [[-20, 25, 400], [820, 25, 400]], ("cap", "cap")))
    found = mended(frame, WORKSHOP)
    bar = next(m for m in found.frame.members if m.id == "bar")

    assert found.left == 0
    assert len(found.done) == 1
    assert tuple(bar.path.start) == pytest.approx((-LEAST - 0.05, OUT, 400), abs=0.01)
    assert tuple(bar.path.end) == pytest.approx((800 + LEAST + 0.05, OUT, 400), abs=0.01)
