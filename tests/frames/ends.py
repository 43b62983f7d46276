"""Ends that nearly meet, tubes that lie in each other, tubes too short, and walls."""

from __future__ import annotations

from tests.frames.case import FOOT, Case, S

RAILS = {"tee": 4, "foot": 2, "cap": 2}

CASES = (
    Case(
        frame="ends/thousandths",
        fittings=RAILS | {"angle-tee": 4},
        lengths={"low": 40 - 2 * S},
    ),
    Case(
        frame="ends/half_millimetre",
        fittings=RAILS,
        # mm: 23.4188/2 + 1.5875 = 13.2969 at both ends
        lengths={"high": 900 - 2 * 13.2969},
        warnings=None,
    ),
    Case(
        frame="ends/two_millimetres",
        errors=None,
        warnings=None,
        about=("high",),
    ),
    Case(
        frame="ends/stray_end",
        fittings={"tee": 3, "foot": 2, "cap": 2},
        errors=frozenset({"J-loose-end"}),
        warnings=frozenset({"J-held-once"}),
        about=("high",),
    ),
    Case(frame="ends/too_short", errors=None, about=("tie",)),
    Case(
        frame="ends/short_tie",
        fittings={"tee": 8, "foot": 3, "cap": 3},
        errors=frozenset({"J-pitch"}),
        about=("tie.1",),
    ),
    Case(
        frame="ends/open_ends",
        errors=frozenset({"J-one-point", "J-fouls", "J-apart"}),
        warnings=None,
        about=("post.left", "high"),
    ),
    Case(
        frame="ends/through_posts",
        errors=frozenset({"J-one-point", "J-fouls", "J-apart"}),
        warnings=None,
        about=("post.right", "high"),
    ),
    Case(frame="ends/doubled", errors=None, warnings=None, about=("high", "high.again")),
    Case(frame="ends/lying_in_line", errors=None, warnings=None, about=("high", "over")),
    Case(
        frame="ends/two_halves",
        fittings={"tee": 4, "cross": 2, "foot": 3, "cap": 3},
        lengths={"high": 20 - 2 * S, "low.right": 18.953},
    ),
    Case(
        frame="ends/cap_against_post",
        errors=frozenset({"J-fouls"}),
        warnings=frozenset({"J-held-once"}),
        about=("post.right", "arm"),
    ),
    Case(
        frame="ends/metric_1349_99",
        fittings=RAILS,
        lengths={"low": 1350 - 0.004},
    ),
    Case(frame="walls/rack_off_a_wall", fittings=RAILS, lengths={"post.left": 60 - FOOT}),
    Case(
        frame="walls/rack_in_a_wall",
        fittings=RAILS,
        errors=frozenset({"J-wall"}),
        about=("wall",),
    ),
    Case(
        frame="walls/tied_to_a_wall",
        fittings={"tee": 6, "foot": 2, "cap": 2, "base-flange": 2},
        lengths={"stay.left": 6 - S - FOOT},
    ),
)
