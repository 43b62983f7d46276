"""Cut lengths against arithmetic by hand, written out. Sizes in inches.

Tube: EMT 3/4, outside diameter 0.922 (Steel Tube Institute, table 'EMT Weights and Dimensions').
Fittings: the generic table (common practice, no source): setback D/2 + 1/16, foot 1/8, grip 2 D up to the next 1/8,
coupler offset D + 3/16, sleeve 3 D, tool gap 1/4.
"""

from __future__ import annotations

import math
from collections import Counter

import pytest

from tests.building import design_of, exact_lengths, greenhouse, inches, table

D = 0.922
S_CORNER = D / 2 + 1 / 16
S_TEE = D / 2 + 1 / 16
FOOT = 1 / 8
GRIP = math.ceil(2 * D * 8) / 8
SLEEVE = 3 * D
GAP = 1 / 4
OVERHANG = GRIP / 2 + 1 / 4
OFFSET = D + 3 / 16


def test_table_by_hand():
    length, width, height, top, spacer = 57, 27, 33, 3 / 4, 3 / 8
    cut = exact_lengths(table())

    assert cut["leg.front.left"] == pytest.approx(height - top - spacer - D / 2 - S_CORNER - FOOT, abs=1e-9)
    assert cut["leg.front.left"] == pytest.approx(30.7655, abs=1e-9)
    assert cut["rail.front"] == pytest.approx(length - D - 2 * S_CORNER, abs=1e-9)
    assert cut["rail.front"] == pytest.approx(55.031, abs=1e-9)
    assert cut["rail.left"] == pytest.approx(width - D - 2 * S_CORNER, abs=1e-9)
    assert cut["rail.left"] == pytest.approx(25.031, abs=1e-9)
    assert cut["stretcher.left"] == pytest.approx(width - D - 2 * S_TEE, abs=1e-9)
    assert cut["stretcher.middle"] == pytest.approx(length - D - 2 * S_TEE, abs=1e-9)


def test_notched_table_has_longer_legs():
    notched = exact_lengths(design_of("table", length="57in", width="27in", height="33in", seat="notched"))

    assert notched["leg.back.right"] == pytest.approx(33 - 3 / 4 - D / 2 - S_CORNER - FOOT, abs=1e-9)


def test_metric_table_by_hand():
    shop = {"units": "mm", "tube": "tube-25x1.5"}
    cut = exact_lengths(design_of("table", shop, length="1400mm", width="650mm", height="880mm"))
    setback = 25 / 2 + 25.4 / 16

    assert cut["leg.front.left"] * 25.4 == pytest.approx(880 - 18 - 10 - 25 / 2 - setback - 25.4 / 8, abs=1e-9)
    assert cut["rail.back"] * 25.4 == pytest.approx(1400 - 25 - 2 * setback, abs=1e-9)


def test_raised_tee_setback_shortens_tee_to_tee_pieces_by_twice_as_much():
    shop = {"fittings": {"tee": {"setback": f"{S_TEE + 1 / 16}in"}}}
    before, after = (
        exact_lengths(table()),
        exact_lengths(design_of("table", shop, length="57in", width="27in", height="33in")),
    )

    assert before["stretcher.middle"] - after["stretcher.middle"] == pytest.approx(1 / 8, abs=1e-9)
    assert before["stretcher.left"] - after["stretcher.left"] == pytest.approx(1 / 8, abs=1e-9)
    assert before["rail.front"] == pytest.approx(after["rail.front"], abs=1e-9)


def test_greenhouse_hoop_halves_by_hand():
    """Pitch of small bends = 2 (R - r) tan(q/2) + r q; r = take-up 6 - D/2 (common practice of hand benders)."""
    big, small, bend, wall = (96 - D) / 2, 6 - D / 2, math.radians(15), 84 - 48
    pitch = 2 * (big - small) * math.tan(bend / 2) + small * bend
    halves = [p for p in greenhouse().parts.pieces if p.member.startswith("hoop")]

    assert pitch == pytest.approx(12.509, abs=5e-4)
    assert len(halves) == 10
    assert {round(inches(p.cut_length), 6) for p in halves} == {round(wall + 6 * pitch, 6)}
    assert wall + 6 * pitch == pytest.approx(111.054, abs=1e-3)


def test_greenhouse_long_runs_by_hand():
    """Whole run = length - D + 2 overhangs; sleeve at a quarter of the last bay, the farthest a 120 in stick goes."""
    run = 144 - D + 2 * OVERHANG
    bay = (144 - D) / 4
    first = OVERHANG + 3 * bay + bay / 4
    lengths = Counter(
        round(inches(p.cut_length), 3)
        for p in greenhouse().parts.pieces
        if p.member.split(".")[0] in {"base", "purlin"}
    )

    assert run == pytest.approx(145.453, abs=1e-9)
    assert lengths == {round(first, 3): 5, round(run - first, 3): 5}
    assert (round(first, 3), round(run - first, 3)) == (117.438, 28.015)


def test_greenhouse_braces_by_hand():
    bay = (144 - D) / 4
    cut = exact_lengths(greenhouse())
    brace = math.hypot(bay, 36 - 7) + 2 * OVERHANG

    assert [cut[f"brace.{e}.{s}"] for e in ("front", "back") for s in ("left", "right")] == pytest.approx([brace] * 4)
    assert brace == pytest.approx(48.42, abs=5e-3)


def test_greenhouse_counts_by_hand():
    """5 hoops x 5 runs; 4 braces x 2; 5 crowns and 5 runs; 2 feet a hoop; 2 ends a run and a brace."""
    design = greenhouse()
    kinds = Counter(j.kind for j in design.jointed.joints)
    stakes = sum(1 for p in design.parts.pieces for e in (p.end_a, p.end_b) if e.kind == "stake")

    assert kinds == {"right-angle-coupler": 25, "swivel-coupler": 8, "sleeve-coupler": 10, "cap": 18}
    assert stakes == 10


def test_ridge_purlin_is_clear_of_the_crown_sleeves():
    ridge = next(m for m in greenhouse().frame.members if m.id == "purlin.ridge")
    shift = inches(ridge.path.start.x) - 48

    assert shift == pytest.approx(GRIP / 2 + SLEEVE / 2 + GAP, abs=1e-9)
    assert shift == pytest.approx(2.5705, abs=1e-9)
    assert inches(ridge.path.start.z) == pytest.approx(84 - D / 2 - OFFSET, abs=1e-9)
