"""What a plan costs: every preference and its weight, in one place. Common practice, no source."""

from __future__ import annotations

MOST_TUBES = 4
"""New tubes in a step at most; of a sub-frame that is built more than once, in one of them."""

MOST_KINDS = 2
"""New tubes of so many marks in a step at most."""

MOST_LOOKS = 3_000
"""Looks at whether a tube gets in while an order for a sub-frame is searched: one of 7 tubes takes some 250."""

STEP = 10.0
"""A step more."""

KIND = 1.0
"""A second kind of tube in a step."""

TORN = 3.0
"""Like tubes that could have been put in together are put in apart."""

OPENED = 0.5
"""A clamp that stands is opened again."""

HELD = 4.0
"""A step that leaves someone holding the frame."""

LOOSE = 1.0
"""A tube that hangs on one clamp until the next step."""

LIFT = 0.02
"""A kilogram is lifted by a metre over the floor."""

FROM_BELOW = 0.6
"""A part comes from below."""

FROM_INSIDE = 0.3
"""A part comes from within the frame."""

SLANTING = 0.3
"""A part comes neither along an axis of the frame nor along itself."""

NARROW = 0.5
"""A part has less than the usual free way."""

ALONG = 1.5
"""A tube is slid along itself through clamps that could be closed round it."""

AFTER = 0.4
"""A fitting goes on after its tubes."""

TURN = 2.0
"""The work is turned: a sub-frame is stood up."""

HEAVIEST = 40.0
"""Two people lift a sub-frame of so much [kg]."""

LONGEST = 4500.0
"""Two people turn a sub-frame of such a length [mm]."""

WIDTHS = ((30, 6), (60, 3), (250, 2))
"""How many unfinished plans are followed, up to so many tubes; one beyond."""

MOST_WORK = 20_000
"""A search looks at so many ways to go on at most."""


def width(tubes: int) -> int:
    """Return how many unfinished plans are followed for a frame of so many tubes."""
    return next((wide for most, wide in WIDTHS if tubes <= most), 1)
