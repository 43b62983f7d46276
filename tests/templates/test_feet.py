"""Levelling feet and casters under tables and shelves, by hand arithmetic for EMT 3/4 in inches."""

from __future__ import annotations

import pytest

from tests.building import TABLE, design_of, draft_of, frame_of, inches
from tubeframe.errors import InputError, Severity

D = 0.922
"""Outside diameter of EMT 3/4 (Steel Tube Institute, table 'EMT Weights and Dimensions') [in]."""
S = D / 2 + 1 / 16
HIGH = {"foot": 1 / 8, "levelling": 1.0, "caster": 3.75, "base-flange": 1 / 8}
"""What stands below the tube (common practice, no source) [in]."""
CASTER_SKIRT = 1.0
G = 1.875


@pytest.mark.parametrize("foot", HIGH)
def test_a_leg_is_cut_for_what_it_stands_on(foot):
    """H 33, top 3/4, spacer 3/8, half a rail, the corner's setback, and what is below the tube."""
    draft = draft_of("table", **dict(TABLE), foot=foot)
    leg = next(p for p in draft.parts.pieces if p.id == "leg.front.left")
    assert inches(leg.cut_length) == pytest.approx(33 - 0.75 - 0.375 - D / 2 - S - HIGH[foot], abs=1e-3)
    assert [f.code for f in draft.findings if f.severity is Severity.ERROR] == []


def test_stretchers_keep_off_a_caster():
    """A stretcher's fitting sits above the caster and its skirt, with half its grip."""
    least = HIGH["caster"] + CASTER_SKIRT + G / 2
    codes = [f.code for f in draft_of("table", foot="caster", stretcher_height=f"{least + 0.01}in").findings]
    assert codes == []
    with pytest.raises(InputError, match="stretcher-height"):
        draft_of("table", foot="caster", stretcher_height=f"{least - 0.1}in")


@pytest.mark.parametrize("template", ["table", "shelf"])
@pytest.mark.parametrize("foot", HIGH)
def test_every_foot_goes_under_both(template, foot):
    design = design_of(template, foot=foot)
    assert [f.code for f in design.findings if f.severity is Severity.ERROR] == []


def test_what_rolls_is_not_tied_to_a_wall_and_is_told_when_it_is_slender():
    """74 in on a base of 18 in is 4.1 to 1; up to 54 in it may roll (common practice, no source: 3 to 1)."""
    rolling = frame_of("shelf", foot="caster")
    assert rolling.supports == ()
    assert {"F-tie", "F-rolls"} <= {f.code for f in rolling.findings}
    low = frame_of("shelf", foot="caster", height="54in", levels="3")
    assert "F-rolls" not in {f.code for f in low.findings}


def test_casters_without_stretchers_are_told():
    assert "F-splay" in {f.code for f in frame_of("table", foot="caster", stretchers="none").findings}
    assert "F-splay" not in {f.code for f in frame_of("table", foot="caster").findings}


def test_casters_are_told_their_load_and_their_brakes():
    frame = frame_of("table", foot="caster")
    (line,) = [f.text for f in frame.facts if f.label == "Casters"]
    assert "each good for a third" in line
    assert any("brake" in s.item and s.quantity == 2 for s in frame.supplies)
