"""Shelves and tables: boards on rails, notched around posts and fittings; tubes of two sizes; metric tubes."""

from __future__ import annotations

from tests.frames.case import FOOT, S45, Case, S

S_1 = 1.163 / 2 + 1 / 16
"""Setback on a run of EMT 1: 0.644 in."""
SIDE_45 = 0.5815 / 0.70711 + 0.461 + 1 / 16
"""Setback of 3/4 at 45 degrees on a run of 1 in: (1.163/2)/sin 45 + (0.922/2)/tan 45 + 1/16 = 1.3459 in."""
M_25 = 12.5 + 25.4 / 16
"""Setback of a tube of 25 mm: 14.0875 mm."""
M_34 = 16.85 + 25.4 / 16


def _shelf(levels):
    return {"side-outlet-tee": 4 * levels, "foot": 4, "cap": 4}


CASES = (
    Case(
        frame="decks/four_decks",
        fittings=_shelf(4),
        lengths={"rail.front.1": 36 - 2 * S, "rail.left.4": 16 - 2 * S, "post.front.left": 72 - FOOT},
    ),
    Case(frame="decks/no_notches", fittings=_shelf(2), errors=None, about=("deck.2", "post.back.right")),
    Case(
        frame="decks/small_notches",
        fittings=_shelf(2),
        errors=None,
        about=("deck.2", "rail.front.2"),
    ),
    Case(
        frame="decks/sunk",
        fittings=_shelf(2),
        errors=None,
        about=("deck", "rail.front.2"),
    ),
    Case(
        frame="decks/floating",
        fittings=_shelf(2),
        errors=None,
        warnings=None,
        about=("deck",),
    ),
    Case(
        frame="decks/overlapping",
        fittings=_shelf(2),
        errors=None,
        about=("deck.left", "deck.right"),
    ),
    Case(frame="decks/two_boards", fittings=_shelf(2)),
    Case(frame="decks/between_fittings", fittings=_shelf(2)),
    Case(frame="decks/three_thicknesses", fittings=_shelf(3)),
    Case(
        frame="decks/on_the_tees",
        fittings={"tee": 10, "foot": 4, "cap": 4},
        errors=None,
        about=("deck", "joist"),
    ),
    Case(
        frame="decks/grooved_over_tees",
        fittings={"tee": 10, "foot": 4, "cap": 4},
        lengths={"joist": 16 - 2 * S},
    ),
    Case(
        frame="decks/groove_too_shallow",
        fittings={"tee": 10, "foot": 4, "cap": 4},
        errors=None,
        about=("deck", "joist"),
    ),
    Case(frame="decks/back_board", fittings=_shelf(4), lengths={"rail.back.2": 34.953}),
    Case(
        frame="decks/bench",
        # a corner's setback is D/2 + 1/16 like a tee's
        fittings={"side-outlet-elbow": 4, "foot": 4},
        lengths={"leg.front.left": 29 - S - FOOT, "rail.front": 44 - 2 * S, "rail.left": 20 - 2 * S},
    ),
    Case(
        frame="decks/bench_no_recess",
        fittings={"side-outlet-elbow": 4, "foot": 4},
        errors=None,
        about=("top", "leg.front.left"),
    ),
    Case(
        frame="decks/bench_high_legs",
        fittings={"side-outlet-tee": 4, "foot": 4, "cap": 4},
        errors=None,
        about=("top", "leg.front.left"),
    ),
    Case(
        frame="decks/ladder_ends",
        fittings={"tee": 16, "foot": 4, "cap": 4},
        lengths={"short.left.1": 18 - 2 * S, "long.back.2": 40 - 2 * S, "post.back.left": 60 - FOOT},
    ),
    Case(
        frame="decks/ladder_ends_near",
        fittings={"tee": 16, "foot": 4, "cap": 4},
        errors=frozenset({"J-pitch"}),
        about=("post.front.left",),
    ),
    Case(
        frame="decks/long_shelf",
        # a middle post has rails left, right and back: a side-outlet cross, not a cross and a tee
        fittings={"side-outlet-tee": 8, "side-outlet-cross": 4, "foot": 6, "cap": 6},
        lengths={"rail.front.left.1": 36 - 2 * S, "short.middle.2": 16 - 2 * S},
    ),
    Case(
        frame="decks/four_ways",
        # the post in the middle has rails from four sides at one height
        fittings={"double-side-outlet-cross": 1, "side-outlet-tee": 4, "tee": 4, "foot": 5, "cap": 5},
        lengths={"in.left": 18 - 2 * S, "in.back": 8 - 2 * S},
    ),
    Case(
        frame="decks/heavy_posts",
        fittings=_shelf(2),
        lengths={"rail.front.1": 36 - 2 * S_1, "rail.left.2": 14.712},
    ),
    Case(
        frame="decks/heavy_rails",
        # the run is of 3/4: D/2 + 1/16, whatever ends on it
        fittings={"tee": 4, "foot": 2, "cap": 2},
        lengths={"low": 36 - 2 * S},
    ),
    Case(
        frame="decks/mixed_rail",
        fittings={"tee": 4, "angle-tee": 4, "foot": 2, "cap": 2},
        lengths={
            "low": 36 - S_1 - S,
            "knee.left": 14.142136 - SIDE_45 - S45,
            "knee.right": 14.142136 - 2 * S45,
        },
    ),
    Case(
        frame="decks/both_ways",
        # a run of 1 in: 0.644, of 3/4: 0.5235, whatever ends on it
        fittings={"tee": 4, "foot": 2, "cap": 2},
        lengths={"low": 36 - S_1 - S, "high": 36 - S_1 - S},
    ),
    Case(
        frame="metric/metric_25",
        fittings=_shelf(2),
        lengths={"rail.front.1": 900 - 2 * M_25, "rail.left.2": 400 - 2 * M_25, "post.back.left": 1800 - 25.4 / 8},
    ),
    Case(
        frame="metric/metric_34",
        fittings=_shelf(2),
        lengths={"rail.front.1": 900 - 2 * M_34, "rail.left.2": 400 - 2 * M_34},
    ),
)
