"""Gables, canopies, hips and stays: tubes that lean."""

from __future__ import annotations

import math

from tests.frames.case import FOOT, Case, D, S

EAVE = 0.461 * 0.414214 + 1 / 16
"""Setback in an elbow of 135 degrees: (D/2)/tan 67.5 + 1/16 = 0.2535 in."""
LEAN = math.hypot(30, 13.9892)
STAY = math.hypot(45, 45, 50)

CASES = (
    Case(
        frame="roofs/gable",
        # eaves of 135 degrees, ridge of 90
        fittings={"obtuse-elbow": 4, "elbow": 2, "tee": 12, "foot": 4},
        lengths={
            "rafter.front.left": 24 * 1.414214 - EAVE - S,
            "post.back.right": 60 - EAVE - FOOT,
            "tie.front": 48 - 2 * S,
            "purlin.left": 60 - 2 * S,
        },
    ),
    Case(
        frame="roofs/gable_flat",
        # eaves and ridge of 120 degrees: (D/2)/tan 60 + 1/16 = 0.3287
        fittings={"swivel-elbow": 3, "tee": 2, "foot": 2},
        lengths={"rafter.left": math.hypot(24, 13.8564) - 2 * 0.32866, "post.left": 60 - 0.32866 - FOOT},
    ),
    Case(
        frame="roofs/gable_with_rails",
        # at an eave the rail's end is square to post and rafter: D/2 + 1/16 for all three
        fittings={"eave-corner": 4, "side-outlet-elbow": 2, "foot": 4},
        lengths={"rafter.front.left": 24 * 1.414214 - 2 * S, "post.back.left": 60 - S - FOOT, "ridge": 60 - 2 * S},
    ),
    Case(
        frame="roofs/canopy",
        fittings={"tee": 14, "side-outlet-tee": 3, "base-flange": 4, "cap": 6},
        lengths={"rafter.left.1": 30 * 1.414214 - 2 * S, "post.front.left": 72 - S - FOOT, "ridge": 88},
    ),
    Case(
        frame="roofs/canopy_over_posts",
        # two eave tees take post and rafter at 135 degrees, on the eave that passes square to both
        fittings={"eave-tee": 2, "tee": 10, "side-outlet-tee": 3, "base-flange": 4, "cap": 6},
        lengths={"rafter.left.1": 30 * 1.414214 - 2 * S, "post.front.left": 72 - S - FOOT},
    ),
    Case(
        frame="roofs/lean_to",
        fittings={"tee": 6, "swivel-tee": 4, "foot": 4, "cap": 4},
        # 65 degrees off the posts at both ends: sin A = 30/33.101, tan A = 30/13.9892; s = 0.7861 twice
        lengths={"rafter.left": LEAN - 2 * (D / 2 * LEAN / 30 + D / 2 * 13.9892 / 30 + 1 / 16)},
    ),
    Case(
        frame="roofs/hip_corner",
        errors=frozenset({"J-no-fitting"}),
        warnings=frozenset({"J-held-once"}),
        about=("post.1", "hip"),
    ),
    Case(
        frame="roofs/tent_pole",
        fittings={"swivel-tee": 4, "foot": 1, "cap": 1},
        # from (0, 0, 50) to (45, 45, 0): 80.932; A off the pole: sin A = 63.640/80.932, tan A = 63.640/50
        lengths={"stay.1": STAY - (0.461 * STAY / 63.6396 + 0.461 * 50 / 63.6396 + 1 / 16)},
    ),
    Case(
        frame="stands/double_brace",
        fittings={"double-angle-tee": 1, "tee": 4, "angle-tee": 2, "foot": 2, "cap": 2},
        # braces of 20 by 20, at 45 degrees at both ends
        lengths={"brace.left": 20 * 1.414214 - 2 * (0.461 / 0.70711 + 0.461 + 1 / 16)},
    ),
    Case(
        frame="stands/braces_apart",
        fittings={"tee": 4, "angle-tee": 4, "foot": 2, "cap": 2},
        lengths={"brace.left": 18 * 1.414214 - 2 * (0.461 / 0.70711 + 0.461 + 1 / 16)},
    ),
)
