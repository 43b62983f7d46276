"""Posts, rails, legs, arms, knees and guys."""

from __future__ import annotations

import math

from tests.frames.case import FOOT, S45, Case, S

LEG = math.hypot(8.007, 29.881)
STEEP = math.hypot(9.0, 14.0)
GUY = math.hypot(50.0, 50.0, 60.0)

CASES = (
    Case(
        frame="stands/ladder",
        fittings={"tee": 10, "foot": 2, "cap": 2},
        # 16 from middle to middle, 0.5235 off at both ends; 72 from the floor, a foot of 1/8 below
        lengths={"rung.1": 16 - 2 * S, "rung.5": 14.953, "stile.left": 72 - FOOT},
    ),
    Case(
        frame="stands/ladder_crowded",
        # tees 2 apart, but G + gap = 2 x 0.922 up to the next 1/8 + 1/4 = 2.125 are needed
        fittings={"tee": 6, "foot": 2, "cap": 2},
        errors=frozenset({"J-pitch"}),
        about=("stile.left",),
    ),
    Case(
        frame="stands/sign_stand",
        # a cross takes both outriggers of a post, a tee each end of a bar, an elbow each toe
        fittings={"cross": 2, "tee": 4, "elbow": 4, "foot": 6, "cap": 2},
        lengths={"bar.low": 30 - 2 * S, "arm.left.front": 12 - 2 * S, "toe.left.back": 5 - S - FOOT},
    ),
    Case(
        frame="stands/sign_on_bars",
        fittings={"tee": 6, "cap": 6},
        errors=None,
        warnings=None,
        about=("bar.left",),
    ),
    Case(
        frame="stands/sawhorse",
        fittings={"tee": 8, "cap": 2},
        # along the leg hypot(8.007, 29.881) = 30.935
        lengths={"leg.left.front": LEG - S, "leg.right.back": LEG - S, "stretcher.back": 25.75 - 2 * S},
    ),
    Case(
        frame="stands/sawhorse_square_feet",
        fittings={"tee": 4, "foot": 4, "cap": 2},
        errors=None,
        warnings=None,
        about=("leg.left.front",),
    ),
    Case(
        frame="stands/sawhorse_swivel_feet",
        # the pivot is 1/8 + D/2 = 0.586 above the floor: along the leg 0.586 / cos 15 = 0.6067
        fittings={"tee": 8, "swivel-foot": 4, "cap": 2},
        lengths={"leg.left.front": math.hypot(8.0385, 30) - S - 0.586 / 0.965926, "stretcher.front": 25.75 - 2 * S},
    ),
    Case(
        frame="stands/a_frame",
        # apex: an elbow, 90 between the legs; the bar meets the legs at 45; rails stand square on the legs
        fittings={"elbow": 2, "angle-tee": 4, "tee": 4},
        lengths={
            "leg.front.left": 30 * 1.414214 - S,  # 41.903
            "bar.front": 30 - 2 * S45,  # 27.649
            "rail.left": 40 - 2 * S,
        },
    ),
    Case(
        frame="stands/a_frame_50",
        fittings={"swivel-elbow": 1, "swivel-tee": 2},
        # apex: (D/2)/tan 25 + 1/16 = 1.0511; the bar 65 degrees off the legs: 0.461/sin 65 + 0.461/tan 65 + 1/16
        lengths={"leg.left": math.hypot(18, 38.601) - 1.0511, "bar": 18 - 2 * 0.7861},
    ),
    Case(
        frame="stands/a_frame_steep",
        errors=frozenset({"J-no-fitting"}),
        about=("leg.left", "leg.right"),
    ),
    Case(
        frame="stands/cantilever",
        fittings={"tee": 6, "angle-tee": 4, "foot": 2, "cap": 4},
        # knee: 12 sqrt 2 = 16.971 less two setbacks at 45
        lengths={"knee.left": 16.970563 - 2 * S45, "arm.left": 18 - S, "rail.low": 40 - 2 * S},
    ),
    Case(
        frame="stands/kayak_rack",
        fittings={"tee": 8, "swivel-tee": 8, "base-flange": 2, "cap": 6},
        # knee over 9 out and 14 up, 16.643 long. At the post A: sin A = 9/16.643, tan A = 9/14; at the arm A':
        # sin A' = 14/16.643, tan A' = 14/9. s = 0.461/sin + 0.461/tan + 1/16 = 1.632 and 0.907
        lengths={
            "knee.left.1": STEEP
            - (0.461 * STEEP / 9 + 0.461 * 14 / 9 + 1 / 16)
            - (0.461 * STEEP / 14 + 0.461 * 9 / 14 + 1 / 16),
            "knee.right.2": 16.6433 - 1.6321 - 0.9069,
            "post.left": 66 - FOOT,
        },
    ),
    Case(
        frame="stands/kayak_rack_steep_knees",
        errors=frozenset({"J-no-fitting"}),
        about=("knee.left", "post.left"),
    ),
    Case(
        frame="stands/guyed_post",
        # the front guy leans at 45 degrees
        fittings={"swivel-tee": 2, "angle-tee": 1, "foot": 1, "cap": 1},
        # sin A = 70.711/92.736, tan A = 70.711/60: s = 0.6046 + 0.3912 + 1/16
        lengths={"guy.right": GUY - (0.461 * GUY / 70.710678 + 0.461 * 60 / 70.710678 + 1 / 16)},
    ),
    Case(
        frame="stands/hurdle",
        fittings={"tee": 2, "elbow": 2, "angle-tee": 4, "cap": 4},
        # a knee of 8 by 8; a post from the middle of a toe to the middle of the top
        lengths={"knee.left": 11.313708 - 2 * S45, "post.left": 35 - 2 * S},
    ),
    Case(
        frame="stands/trestle_pair",
        fittings={"tee": 4, "angle-tee": 4, "base-flange": 2, "cap": 2},
        lengths={"post.left": 28 - S - FOOT, "knee.right": 14.142136 - 2 * S45, "top": 52},
    ),
    Case(
        frame="stands/foot_in_the_air",
        fittings={"tee": 4, "foot": 2, "cap": 2},
        errors=None,
        warnings=None,
        about=("post.right",),
    ),
    Case(
        frame="stands/flange_in_the_air",
        fittings={"tee": 4, "base-flange": 2, "cap": 2},
        errors=None,
        warnings=None,
        about=("post.right",),
    ),
    Case(
        frame="stands/rail_under_the_floor",
        errors=None,
        warnings=None,
        about=("low",),
    ),
)
