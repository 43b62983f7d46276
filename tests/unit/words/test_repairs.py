"""Repairs as a person reads them: which piece, how far, and where it sits then."""

from __future__ import annotations

import re

import pytest

from tests.unit.joints.test_mended import SPOILED
from tests.unit.joints.test_planted_faults import BOARD, FAULTS, SOUND, WORKSHOP, _frame, post, rail
from tubeframe.geometry.units import Units
from tubeframe.geometry.vector import Vec
from tubeframe.joints.repair.search import mended, repairs
from tubeframe.words.repairs import mended_lines, offer_lines, repair_words, shift_words

SAID = {
    "a rail too short": 'make low 7/16" longer at the right end; use 1 tee',
    "a rail aside": (
        'move low 1/4" forward: to 7 7/8" from the lower end of post.0.0 and post.800.0; use 2 tees and 1 angle-tee'
    ),
    "a rail with a cap where it should be held": "let the right end of low end in a fitting; use 1 tee",
    "a rail that is there twice": "leave out again: it lies where low is; use 2 tees and 1 angle-tee",
    "a foot in the air": 'make post.800.400 1/2" longer at the lower end',
    "all feet in the air": 'move the whole frame 1/2" down',
    "a board that floats": 'move deck 3/8" down',
}


@pytest.mark.parametrize("fault", SAID)
def test_a_repair_is_told_in_one_line(fault):
    done = mended(SPOILED[fault], WORKSHOP).done

    assert [repair_words(r, Units.INCH) for r in done] == [SAID[fault]]


def test_a_slanting_shift_is_told_along_both_axes():
    assert shift_words(Vec(30.0, 0.0, -40.0), Units.MILLIMETRE) == "30 mm right and 40 mm down"
    assert shift_words(Vec(0.0, 0.2, 0.0), Units.INCH) == "0.008 in back"


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("fault", FAULTS)
def test_no_repair_tells_of_nothing(fault, units):
    """No length of nought, and no piece twice in one list."""
    members, code = FAULTS[fault]
    frame = _frame(*members, panels=[BOARD] if code == "J-panel" else ())
    for line in offer_lines(repairs(frame, WORKSHOP), units):
        assert not re.search(r'(?<![\d.])0(\.0+)? ?("|in|mm)', line), line
        for names in re.findall(r"(?:move|make) ([^:;\"]+?) \d", line):
            parts = re.split(r", | and ", names)
            assert len(parts) == len(set(parts)), line


def test_each_change_is_said_and_what_is_left():
    crowded = _frame(*SOUND, rail("middle", 240), post("alone", 400, 5000))
    lines = mended_lines(mended(crowded, WORKSHOP), Units.MILLIMETRE)

    assert lines[0].startswith("repaired ")
    assert any("move middle 14 mm up: to 254 mm from the lower end of left and right" in line for line in lines)
    assert mended_lines(mended(_frame(*SOUND), WORKSHOP), Units.INCH) == ["nothing to repair: no fault was found"]
