"""What two measured diagonals say of a face, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import INCH_MM, format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.squaring import Push
    from tubeframe.geometry.units import Units

CORNERS = ("lower left", "upper left", "upper right", "lower right")
FLOOR_CORNERS = ("front left", "back left", "back right", "front right")
_FLOOR = "floor"
_ENOUGH = INCH_MM / 16.0
"""Less than this nobody pushes on purpose [mm]; common practice, no source."""
_OFF = 0.005
"""Diagonals that are off by this share of their length were not taken between the points that are meant."""


def push_lines(face: str, diagonal: float, push: Push, units: Units) -> list[str]:
    """Say which corner is pushed which way and how far, and what both diagonals read when it is there."""
    corners = FLOOR_CORNERS if face == _FLOOR else CORNERS
    aim = format_length(push.aim, units)
    lines = []
    if abs(push.to_right) < _ENOUGH:
        lines.append(f"{face}: square within {format_length(_ENOUGH, units)}; nothing is to be pushed")
    else:
        corner, way = (corners[2], "left") if push.to_right > 0.0 else (corners[1], "right")
        far = format_length(abs(push.to_right), units)
        lines.append(f"{face}: push the {corner} corner {far} to the {way}, until both diagonals read {aim}")
    if abs(push.off_size) > _OFF * diagonal:
        more = "longer" if push.off_size > 0.0 else "shorter"
        lines.append(
            f"both together are {format_length(abs(push.off_size), units)} {more} than the frame's "
            f"{format_length(diagonal, units)}: measure between the points below, and see that every end sits home"
        )
    return lines


def point_lines(face: str, points: Sequence[tuple[str, float]], units: Units) -> list[str]:
    """Say between which points both diagonals are taken."""
    corners = FLOOR_CORNERS if face == _FLOOR else CORNERS
    seen = "as seen from above" if face == _FLOOR else "as you face it from outside"
    named = [
        f"{corner}: on {mark}, {format_length(at, units)} from its end A"
        for corner, (mark, at) in zip(corners, points, strict=True)
    ]
    return [
        f"first {corners[0]} to {corners[2]}, then {corners[1]} to {corners[3]}, {seen}; the same edge of every tube",
        *(f"  {line}" for line in named),
    ]
