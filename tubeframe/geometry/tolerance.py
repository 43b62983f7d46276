"""Every tolerance of the model, in one place."""

MEET_MM = 0.5
"""Two centrelines that come this near meet in a point [mm]."""

EXACT_MM = 0.01
"""Points nearer than this are one; a wider miss is mended where it is told [mm]."""

COUPLER_MM = 0.5
"""A coupler takes runs whose distance is its offset, give or take this [mm]."""

PLANE_MM = 0.5
"""Tubes are in one plane when their centrelines stay this near to it [mm]."""

WIDE_ARC_MM = 450.0
"""A fitting may sit on an arc of a larger radius; whether its grip is short enough for it is another question [mm]."""

ANGLE_DEG = 1.0
"""A fitting of a fixed angle takes directions within this of its own [degree]."""

SAME_LENGTH_MM = 0.01
"""Two pieces whose lengths differ by less are cut alike [mm]."""

SAME_TURN_DEG = 1.0
"""Two clamps whose turns about a tube differ by less are put on alike [degree]."""

LOWER_MM = 0.5
"""An end is the lower one when it lies lower by more than this [mm]."""

TINY = 1e-9
"""Below this a length [mm] or a sine is nothing but rounding."""
