"""Rails and posts about as long as a stick, and places that are asked for sleeves."""

from __future__ import annotations

from tests.frames.case import FOOT, Case, S

ONE_STICK = {"tee": 4, "foot": 2, "cap": 2}

CASES = (
    Case(
        frame="splits/rail_121",
        # 121 - 2 x 0.5235 = 119.953: no sleeve
        fittings=ONE_STICK,
        lengths={"rail.low": 121 - 2 * S, "rail.high": 119.953},
    ),
    Case(frame="splits/rail_121_047", fittings=ONE_STICK, lengths={"rail.low": 120}),
    Case(frame="splits/rail_122", fittings=ONE_STICK | {"sleeve-coupler": 2}),
    Case(frame="splits/rail_123", fittings=ONE_STICK | {"sleeve-coupler": 2}),
    Case(frame="splits/rail_250", fittings=ONE_STICK | {"sleeve-coupler": 4}),
    Case(frame="splits/post_120_1", fittings=ONE_STICK, lengths={"post.left": 120.1 - FOOT}),
    Case(frame="splits/post_120_2", fittings=ONE_STICK | {"sleeve-coupler": 2}),
    Case(
        frame="splits/asked_good",
        fittings=ONE_STICK | {"sleeve-coupler": 2},
        lengths={"rail.low.1": 60 - S, "rail.low.2": 90 - S},
    ),
    Case(frame="splits/asked_near_the_end", errors=frozenset({"J-split", "J-pitch", "J-body"}), about=("rail.low",)),
    Case(frame="splits/asked_twice", errors=frozenset({"J-split"}), about=("rail.high",)),
    Case(frame="splits/asked_too_long", errors=frozenset({"J-split"}), about=("rail.low",)),
    Case(frame="splits/asked_too_near", errors=frozenset({"J-split"}), about=("rail.low",)),
    Case(frame="splits/asked_on_a_post", errors=frozenset({"J-split", "J-pitch"}), about=("rail.low",)),
    Case(frame="splits/asked_by_a_bend", errors=frozenset({"J-split", "J-bend"}), about=("hoop",)),
    Case(frame="splits/sliver", errors=None, about=("rail.low.1",)),
    Case(
        frame="splits/parallel_rails",
        fittings={"tee": 20, "cross": 4, "sleeve-coupler": 8, "foot": 8, "cap": 8},
        lengths={"tie.left.0": 20 - 2 * S},
    ),
)
