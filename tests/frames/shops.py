"""The same frames in shops of different people: measured fittings, prices, sticks."""

from __future__ import annotations

import math

from tests.frames.case import FOOT, S45, Case, S

KNEED = {"tee": 4, "angle-tee": 4, "foot": 2, "cap": 2}
SWUNG = {"tee": 4, "swivel-tee": 4, "foot": 2, "cap": 2}
KNEE = 14.142136
AT_30 = 0.461 / 0.5 + 0.461 / 0.577350 + 1 / 16
"""Setback at 30 degrees: (D/2)/sin 30 + (D/2)/tan 30 + 1/16 = 1.7830 in."""
AT_40 = 0.461 / 0.642788 + 0.461 / 0.839100 + 1 / 16
AT_50 = 0.461 / 0.766044 + 0.461 / 1.191754 + 1 / 16
LONG, SHORT = 8 / math.cos(math.radians(60)), 8 / math.cos(math.radians(50))

CASES = (
    Case(
        frame="shops/priced_swivels",
        fittings=KNEED,
        lengths={"knee.left": KNEE - 2 * S45},
        shop={"fittings": {"tee": {"price": 5.0}, "angle-tee": {"price": 5.0}, "swivel-tee": {"price": 1.0}}},
    ),
    Case(
        frame="shops/measured_tees",
        fittings=KNEED,
        lengths={"low": 40 - 2 * 0.6, "knee.left": KNEE - 2 * S45},
        shop={"fittings": {"tee": {"emt-3/4": {"setback": "0.6 in"}}}},
    ),
    Case(
        frame="shops/measured_other_size",
        fittings=KNEED,
        lengths={"low": 40 - 2 * S},
        shop={"fittings": {"tee": {"emt-1": {"setback": "0.7 in"}}}},
    ),
    Case(
        frame="shops/measured_45",
        fittings=KNEED,
        lengths={"knee.right": KNEE - 2 * 1.5, "low": 40 - 2 * S},
        shop={"fittings": {"angle-tee": {"setback": {"45": "1.5 in"}}}},
    ),
    Case(
        frame="shops/measured_60",
        fittings=SWUNG,
        # 60 degrees off the rail is measured, 30 off the post is not
        lengths={"knee.left": LONG - 1.25 - AT_30, "knee.right": SHORT - AT_50 - AT_40},
        shop={"fittings": {"swivel-tee": {"setback": {"60": "1.25 in"}}}},
    ),
    Case(
        frame="shops/interpolated",
        fittings=SWUNG,
        # 40 degrees 1.4, 60 degrees 1.0: 1.2 at 50
        lengths={"knee.right": SHORT - 1.2 - 1.4, "knee.left": LONG - 1.0 - AT_30},
        shop={"fittings": {"swivel-tee": {"setback": {"40": "1.4 in", "60": "1.0 in"}}}},
    ),
    Case(
        frame="shops/zero_thickness",
        fittings=KNEED,
        lengths={"post.left": 50},
        shop={"fittings": {"foot": {"thickness": "0 in"}}},
    ),
    Case(
        frame="shops/short_sticks",
        # posts cut 49.875 and rails cut 38.953 from sticks of 36: a sleeve in each
        fittings=KNEED | {"sleeve-coupler": 4},
        lengths={"knee.left": KNEE - 2 * S45},
        shop={"stock": [{"tube": "emt-3/4", "length": "36 in"}]},
    ),
    *(
        Case(
            frame=f"shops/{name}",
            fittings={"tee": 1, "foot": 1, "cap": 2},
            warnings=frozenset({"J-held-once"}),
            lengths={"arm": 24 - outside / 2 - 1 / 16, "post": 60 - FOOT},
        )
        for name, outside in (("large_tee", 1.510), ("larger_tee", 1.740))
    ),
    Case(
        frame="shops/lone_cross",
        fittings={"cross": 1, "foot": 1, "cap": 3},
        warnings=frozenset({"J-held-once"}),
        lengths={"arm.left": 24 - S},
    ),
)
