"""Numbers and points as they are written to a file: rounded, and never minus nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.geometry.vector import Vec

_DIGITS = 6


def number(value: float) -> float:
    """Round a number."""
    return round(value, _DIGITS) + 0.0


def optional(value: float | None) -> float | None:
    """Round a number, if there is one."""
    return None if value is None else number(value)


def point(at: Vec) -> list[float]:
    """Write a point as three numbers."""
    return [number(v) for v in at]
