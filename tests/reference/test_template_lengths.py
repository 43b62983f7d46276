"""Lengths of the templates' frames by hand: s = D/2 + 1/16 in is a tee's setback (generic table, common practice)."""

from __future__ import annotations

import math
from collections import Counter

import pytest

from tests.building import design_of, draft_of, exact_lengths, inches

MM = 25.4


def _millimetres(draft):
    return {p.id: p.cut_length for p in draft.parts.pieces}


def test_a_shelf_of_four_levels_in_millimetres():
    """900 x 400 x 1800, tube 25: centre lines 875 and 375 apart; a foot is 1/8 in thick; s = 12.5 + 1.5875."""
    shelf = draft_of(
        "shelf", {"units": "mm"}, tube="tube-25x1.5", length="900mm", depth="400mm", height="1800mm", levels="4"
    )
    cut, setback = _millimetres(shelf), 25 / 2 + MM / 16

    assert {round(v, 6) for k, v in cut.items() if k.startswith("post")} == {round(1800 - MM / 8, 6)}
    assert {round(v, 6) for k, v in cut.items() if k.startswith("long")} == {round(875 - 2 * setback, 6)}
    assert {round(v, 6) for k, v in cut.items() if k.startswith("short")} == {round(375 - 2 * setback, 6)}


def test_a_shelf_of_four_levels_counts():
    """4 posts, 8 + 8 rails and 2 braces; 16 side-outlet tees, 4 swivel couplers (common practice, no source)."""
    shelf = draft_of("shelf")
    kinds = Counter(j.kind for j in shelf.jointed.joints)

    assert len(shelf.parts.pieces) == 22
    assert (kinds["side-outlet-tee"], kinds["swivel-coupler"], kinds["foot"]) == (16, 4, 4)
    assert kinds["cap"] == 4 + 2 * 2  # posts and braces


def test_a_bed_rack_in_inches():
    """Span 60, rail to rail 62, height 22, 1 in tube, 4 crossbars, overhang 4.

    Side rails 60 + 2 x 4; uprights 22 - D/2 - flange - s; crossbars 62 - 2 s.
    """
    cut = exact_lengths(
        draft_of("bed-rack", span="60in", rail_to_rail="62in", height="22in", crossbars="4", overhang="4in")
    )
    outside, setback = 1.163, 1.163 / 2 + 1 / 16

    assert cut["rail.left"] == pytest.approx(68.0)
    assert cut["upright.left.1"] == pytest.approx(22 - outside / 2 - 1 / 8 - setback)
    assert cut["crossbar.1"] == pytest.approx(62 - 2 * setback)


def test_a_bed_rack_counts():
    """4 posts, 2 rails, 4 crossbars, 8 knees (common practice, no source)."""
    rack = draft_of("bed-rack")
    kinds = Counter(j.kind for j in rack.jointed.joints)

    assert len(rack.parts.pieces) == 18
    assert kinds == {"side-outlet-tee": 4, "tee": 4, "angle-tee": 16, "base-flange": 4, "cap": 4}


def test_a_table_with_knees_and_joists_counts():
    """4 legs, 4 rails, 2 + 1 stretchers, 2 joists, 6 knees (common practice, no source)."""
    table = draft_of("table", joists="2")
    kinds = Counter(j.kind for j in table.jointed.joints)

    assert len(table.parts.pieces) == 19
    assert kinds == {"side-outlet-elbow": 4, "tee": 10, "angle-tee": 12, "foot": 4}


def test_knees_are_45_degrees_between_setbacks_of_an_angle_tee():
    """A knee of leg L is L sqrt 2 on centre lines; each end stops s = 1.207 D + 1/16 in short of its tube's middle."""
    table = draft_of("table", knee="10in")
    knee = next(p for p in table.parts.pieces if p.id == "knee.left.back")
    floor = 0.922 / 2 / math.sin(math.radians(45)) + 0.922 / 2

    assert inches(knee.cut_length) == pytest.approx(10 * math.sqrt(2) - 2 * (floor + 1 / 16))


@pytest.mark.parametrize("topology", ["ladder", "laid-over"])
def test_rails_of_other_shelves(topology):
    """Ladder: both rails cut between posts, a pitch apart; laid over: long rails run past the ends by the overhang."""
    shelf = design_of("shelf", topology=topology, length="42in", depth="18in")
    cut = exact_lengths(shelf)
    middle, setback = 42 - 0.922, 0.922 / 2 + 1 / 16
    grip, over = 1.875, 1.875 / 2 + 0.25

    assert cut["short.1.1"] == pytest.approx(18 - 0.922 - 2 * setback)
    if topology == "ladder":
        assert cut["long.1.front.1"] == pytest.approx(middle - 2 * setback)
        low, high = (
            next(m for m in shelf.frame.members if m.id == k).path.start.z for k in ("short.1.1", "long.1.front.1")
        )
        assert inches(high - low) == pytest.approx(grip + 0.25)
    else:
        assert cut["long.1.front"] == pytest.approx(middle + 2 * over)
