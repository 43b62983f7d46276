from __future__ import annotations

import pytest

from tests.unit.joints.test_planted_faults import OUT, SOUND, WORKSHOP, _frame, post, rail
from tubeframe.errors import Severity
from tubeframe.joints.repair import repairs
from tubeframe.joints.resolve import jointed


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
        assert len(_errors(one.frame)) < len(before)
        assert set(_errors(one.frame)) <= set(before)


def test_the_first_repair_by_hand():
    """40 mm apart, 2 1/8 in = 53.975 mm needed: 13.975 mm, and nothing else is wrong then."""
    frame = _frame(*SOUND, rail("middle", 240))
    first = repairs(frame, WORKSHOP)[0]

    assert first.words == 'move middle 9/16" up'
    moved = {m.id: m for m in first.frame.members}["middle"]
    assert moved.path.start.z == pytest.approx(240 + 13.975 + 0.05)
    assert _errors(first.frame) == []


def test_a_sound_frame_gets_no_offer():
    assert repairs(_frame(*SOUND), WORKSHOP) == ()


def test_a_move_that_breaks_something_else_is_not_offered():
    """Between two rails there is no room for a third either way."""
    frame = _frame(*SOUND[:2], rail("low", 200), rail("middle", 240), rail("next", 300), rail("high", 600))
    words = [r.words for r in repairs(frame, WORKSHOP)]

    assert all("middle" not in w or "up" not in w for w in words)
