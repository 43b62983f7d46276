"""Tubes that pass each other: laid over, side by side, crossing."""

from __future__ import annotations

import math

from tests.frames.case import FOOT, S45, Case, S

CASES = (
    Case(
        frame="couplers/bed_rack",
        fittings={"tee": 4, "angle-tee": 8, "right-angle-coupler": 6, "base-flange": 4, "cap": 10},
        # bars run through: no setback; a knee of 10 by 10
        lengths={
            "post.front.left": 24 - S - FOOT,
            "bar.1": 60,
            "rail.left": 60,
            "knee.back.right": 14.142136 - 2 * S45,
        },
    ),
    Case(
        frame="couplers/bar_over_a_tee",
        fittings={"tee": 3, "right-angle-coupler": 4, "base-flange": 3, "cap": 8},
        errors=frozenset({"J-pitch", "J-body"}),
        about=("bar.1", "post.left"),
    ),
    Case(
        frame="couplers/diagonals",
        fittings={"tee": 4, "swivel-coupler": 4, "foot": 2, "cap": 6},
        lengths={"brace.back": math.hypot(44, 40)},
    ),
    Case(
        frame="couplers/diagonals_in_one_plane",
        fittings={"tee": 4, "swivel-coupler": 4, "foot": 2, "cap": 6},
        errors=frozenset({"J-one-point", "J-fouls"}),
        about=("brace.one", "brace.other"),
    ),
    Case(
        frame="couplers/side_by_side",
        fittings={"tee": 4, "parallel-coupler": 2, "foot": 2, "cap": 4},
        lengths={"double": 42},
    ),
    Case(
        frame="couplers/collar",
        fittings={"tee": 4, "collar": 1, "foot": 2, "cap": 2},
        lengths={"post.left": 50 - FOOT},
    ),
    Case(
        frame="couplers/two_sizes",
        # middles (1.163 + 0.922)/2 + 3/16 = 1.23 apart; a post of 1 in ends under a rail of 1 in
        fittings={"tee": 4, "right-angle-coupler": 4, "foot": 4, "cap": 8},
        lengths={"post.1": 12 - (1.163 / 2 + 1 / 16) - FOOT, "bar.1": 30},
    ),
    Case(
        frame="couplers/short_bar",
        fittings={"tee": 2, "right-angle-coupler": 2, "foot": 2, "cap": 4},
        errors=frozenset({"J-pitch", "J-overhang"}),
        about=("bar",),
    ),
    Case(
        frame="couplers/bar_at_1_3_16",
        fittings={"tee": 2, "right-angle-coupler": 2, "foot": 2, "cap": 4},
        lengths={"bar": 42.375},
    ),
    Case(
        frame="couplers/bar_at_1_1_8",
        fittings={"tee": 2, "right-angle-coupler": 2, "foot": 2, "cap": 4},
        errors=frozenset({"J-overhang"}),
        about=("bar",),
    ),
    Case(
        frame="couplers/loose_cross",
        errors=frozenset({"J-fouls", "J-apart"}),
        warnings=frozenset({"J-held-once"}),
        about=("post.left", "bar"),
    ),
)
