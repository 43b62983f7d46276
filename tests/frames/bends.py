"""Hoops, bows and bent rails: what bends take off a length, and what runs into them."""

from __future__ import annotations

import math

from tests.frames.case import FOOT, Case, S

R = 6 - 0.922 / 2
"""Radius of the bender of 3/4: marked take-up 6 less half the tube, 5.539 in (common practice of hand benders)."""
SAVED = 2 * R - math.pi / 2 * R
"""A bend of 90 degrees saves 2 r - (pi/2) r on the way around its corner: 2.3774 in."""
SAVED_45 = 2 * R * math.tan(math.pi / 8) - math.pi / 4 * R
"""A bend of 45 degrees: 2 r tan 22.5 - (pi/4) r = 0.2383 in."""

CASES = (
    *(
        Case(
            frame=f"bends/u_{leg}",
            fittings={"tee": 2, "foot": 2},
            # two legs and the top less two bends and two feet; 2 in more at each end for the bender: at most 118.995
            lengths={"hoop": 2 * leg + 28 - 2 * SAVED - 2 * FOOT, "rail": 28 - 2 * S},
        )
        for leg in (44, 46)
    ),
    *(
        Case(
            frame=f"bends/u_{leg}",
            # cut 116.995 or 118.995, and 4 in for the bender: more than a stick of 120
            fittings={"tee": 2, "foot": 2, "sleeve-coupler": 1},
        )
        for leg in (47, 48)
    ),
    Case(
        frame="bends/offset_rail",
        fittings={"tee": 4, "foot": 2, "cap": 2},
        # 10 + 6 sqrt 2 + 24 around the corners
        lengths={"rail.low": 10 + 8.485281 + 24 - 2 * SAVED_45 - 2 * S},
    ),
    Case(
        frame="bends/own_radius",
        fittings={"tee": 2, "foot": 2},
        # the bender of 1 in: 8 - 1.163/2 = 7.4185; a bend saves 0.429204 r = 3.1840
        lengths={"hoop": 120 - 2 * 0.429204 * 7.4185 - 2 * FOOT, "rail": 40 - 2 * (1.163 / 2 + 1 / 16)},
    ),
    Case(
        frame="bends/stated_radius",
        fittings={"tee": 2, "foot": 2},
        lengths={"hoop": 120 - 0.429204 * 6 - 0.429204 * 9 - 2 * FOOT},
    ),
    Case(
        frame="bends/two_planes",
        fittings={"tee": 3, "foot": 2, "cap": 1},
        lengths={"handrail": 34 + 24 + 24 - 2 * SAVED - S - FOOT, "rail": 33.941125 - 2 * S},
    ),
    Case(
        frame="bends/clamp_on_a_bend",
        fittings={"tee": 4, "foot": 2},
        errors=frozenset({"J-bend"}),
        about=("hoop", "rail.high"),
    ),
    Case(
        frame="bends/clamp_past_a_bend",
        fittings={"tee": 4, "foot": 2},
        lengths={"strut": 32 - 2 * S},
        errors=frozenset({"J-bend"}),
        about=("hoop", "strut"),
    ),
    Case(
        frame="bends/clamp_off_a_bend",
        # 34.461 - 33.02 = 1.441, where 0.9375 + 0.5 = 1.4375 are needed
        fittings={"tee": 4, "foot": 2},
        lengths={"hoop": 120 - 2 * SAVED - 2 * FOOT},
    ),
    Case(
        frame="bends/rod_by_a_bend",
        fittings={"cross": 1, "tee": 4, "foot": 4, "cap": 2},
        errors=None,
        about=("hoop", "rod"),
    ),
    Case(
        frame="bends/rod_clear_of_a_bend",
        fittings={"cross": 1, "tee": 4, "foot": 4, "cap": 2},
        lengths={"rod": 48 - 2 * S, "tie.front": 24 - 2 * S},
    ),
    Case(
        frame="bends/rod_through_a_bend",
        errors=None,
        about=("hoop", "rod"),
    ),
    Case(
        frame="bends/end_on_a_bend",
        errors=None,
        warnings=None,
        about=("hoop", "rail"),
    ),
    Case(
        frame="bends/bend_into_a_wall",
        fittings={"tee": 4, "foot": 2, "cap": 2},
        errors=frozenset({"J-wall"}),
        about=("bow",),
    ),
    Case(
        frame="bends/bow_off_a_wall",
        fittings={"tee": 4, "foot": 2, "cap": 2},
        lengths={"bow": 2 * 21.213203 - SAVED - 2 * S},
    ),
    Case(
        frame="bends/bend_into_a_fitting",
        errors=frozenset({"J-body"}),
        about=("hoop", "rail.high"),
    ),
    Case(
        frame="bends/back_into_its_post",
        errors=frozenset({"J-fouls"}),
        warnings=frozenset({"J-held-once"}),
        about=("post.left", "arm"),
    ),
    Case(
        frame="bends/gothic_pair",
        fittings={"right-angle-coupler": 4, "sleeve-coupler": 2, "cap": 4},
        # eave bends atan(20/30) = 0.588003, crown pi - 2 atan(30/20) = 1.965587 - each saves 2 r tan(q/2) - r q:
        # 0.0973 twice and 5.7296; 30 + 36.0555 + 36.0555 + 30 = 132.1110 around the corners
        lengths={"bow.front.1": 50, "bow.back.2": 132.1110 - 2 * 0.0973 - 5.7296 - 50, "side.left": 54},
    ),
    Case(
        frame="bends/form_bow",
        # legs of 24 and half a circle of 24: 24 + 24 pi + 24 = 123.40 takes a sleeve in a leg, a foot from its end
        fittings={"tee": 2, "sleeve-coupler": 1},
        lengths={"bow.1": 24 + 24 * math.pi + 12, "bow.2": 12, "tie": 48 - 2 * S},
    ),
    Case(
        frame="bends/arch_in_small_bends",
        # 4 bends of 22.5 a quarter bulge by 14.461 (1/cos 11.25 - 1) = 0.28, 3 of 30 by 0.51; half a pitch at each end
        fittings={"tee": 2, "foot": 2},
        lengths={
            "arch": 2 * 20 + 8 * (2 * (20 - R) * math.tan(math.pi / 16) + R * math.pi / 8) - 2 * FOOT,
            "tie": 40 - 2 * S,
        },
    ),
    Case(
        frame="bends/tunnel_round_a_form",
        # couplers on arcs of 42: over a grip of 1.875 the tube bows by 1.875^2 / 336 = 0.010, over a sleeve of 2.766 by
        # 0.023; 48 + 42 pi = 179.95 in two parts
        fittings={"right-angle-coupler": 15, "sleeve-coupler": 3, "cap": 10},
        lengths={"bow.front.1": 24 + 42 * math.pi + 24 - 74.213069, "purlin.ridge": 80},
    ),
    Case(
        frame="bends/cart_handle",
        # 14, 16 sqrt 2, 24 and back around the corners; two bends of 45, two of 90
        fittings={"tee": 4, "foot": 2, "cap": 2},
        lengths={"handle": 28 + 32 * math.sqrt(2) + 24 - 2 * SAVED_45 - 2 * SAVED - 2 * S},
    ),
    Case(
        frame="bends/crook",
        fittings={"tee": 4, "foot": 2, "cap": 2},
        lengths={"crook": 60 + 20 + 6 - 2 * SAVED - FOOT, "low": 12 - 2 * S},
    ),
)
