"""Gates and doors: a rigid part that turns in rings on its post."""

from __future__ import annotations

import math

from tests.frames.case import FOOT, Case, S

BRACE = math.hypot(24, 40)
AT_RAIL = 0.461 * BRACE / 40 + 0.461 * 24 / 40 + 1 / 16
"""Brace to rail: (D/2)/sin A + (D/2)/tan A + 1/16 with tan A = 40/24, 0.8768 in."""

CASES = (
    Case(
        frame="doors/gate",
        # a ring and a collar below it at both hinges, elbows at the latch and at the beam
        fittings={
            "elbow": 4,
            "loose-ring": 2,
            "collar": 2,
            "tee": 2,
            "swivel-tee": 2,
            "base-flange": 2,
        },
        lengths={
            "gate.bottom": 37 - 2 * S,
            "gate.top": 35.953,
            "gate.latch": 40 - 2 * S,
            "gate.hinge": 38.953,
            "gate.brace": BRACE - 2 * AT_RAIL,  # 44.894
            "post.left": 60 - S - FOOT,
        },
    ),
    Case(
        frame="doors/gate_tied",
        fittings={"elbow": 3, "loose-ring": 2, "collar": 2, "tee": 4, "swivel-tee": 2, "base-flange": 2},
        warnings=frozenset({"J-tied-door"}),
        about=("gate.bottom", "post.right"),
    ),
    Case(
        frame="doors/gate_one_ring",
        fittings={"elbow": 4, "loose-ring": 1, "collar": 2, "tee": 3, "swivel-tee": 2, "base-flange": 2},
        warnings=frozenset({"J-tied-door", "J-hinges"}),
        about=("gate.top", "post.left"),
    ),
)
