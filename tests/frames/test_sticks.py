"""Pieces of every text frame against the sticks that they are cut from."""

from __future__ import annotations

import pytest

from tests.frames.case import draft, read
from tests.frames.cases import CASES

SOUND = [pytest.param(c, id=c.frame) for c in CASES if c.is_sound and "all" not in c.wrong]
LEAST_STUB_MM = 6 * 25.4
"""Nobody wants a stub shorter than this in line with a rail: common practice, no source."""


@pytest.mark.parametrize("case", SOUND)
def test_every_piece_comes_out_of_a_stick_with_what_the_bender_needs(case):
    workshop = read(case)[1]
    for piece in draft(case).parts.pieces:
        rough = piece.cut_length + piece.allowance_a + piece.allowance_b
        assert rough <= workshop.longest_stick(piece.size) + 0.01, piece.id


@pytest.mark.parametrize("case", SOUND)
def test_a_split_leaves_no_stub(case):
    asked = {m.id for m in read(case)[0].members if m.split_at}
    for piece in draft(case).parts.pieces:
        assert piece.id == piece.member or piece.member in asked or piece.cut_length >= LEAST_STUB_MM, piece.id


def test_sleeves_of_parallel_rails_do_not_lie_in_one_row():
    rails = next(c for c in CASES if c.frame == "splits/parallel_rails")
    first = {p.id: p.cut_length for p in draft(rails).parts.pieces if p.id.endswith(".1")}

    assert first["rail.0.1"] != pytest.approx(first["low.0.1"], abs=25.4)
