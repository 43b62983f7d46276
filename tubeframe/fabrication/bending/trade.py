"""The trade's rounded figures of an offset, to lay beside the exact ones.

Multipliers and shrink an inch of rise: tables for hand benders (B. Bamford, Bending Conduit/Tubing Using Hand Benders,
Albany Technical College, 2007). A saddle of three bends, 45 and twice 22.5: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TradeOffset:
    """An angle's multiplier, the marks' distance over the rise, and the shrink of an inch of rise."""

    angle: float
    multiplier: float
    shrink: float


TRADE_OFFSETS = (
    TradeOffset(angle=10.0, multiplier=6.0, shrink=1.0 / 16.0),
    TradeOffset(angle=22.5, multiplier=2.6, shrink=3.0 / 16.0),
    TradeOffset(angle=30.0, multiplier=2.0, shrink=1.0 / 4.0),
    TradeOffset(angle=45.0, multiplier=1.4, shrink=3.0 / 8.0),
    TradeOffset(angle=60.0, multiplier=1.2, shrink=1.0 / 2.0),
)
TRADE_SADDLE_ANGLE = 45.0
TRADE_SADDLE_OUTER = 2.5
TRADE_SADDLE_SHIFT = 3.0 / 16.0


def trade_offset(angle: float) -> TradeOffset | None:
    """Return the trade's figures for an angle [degree]; None where it has none."""
    return next((row for row in TRADE_OFFSETS if abs(row.angle - angle) < 1e-9), None)
