"""Sizes of a frame that words are made with: taken from its members and boards, so that they follow every change."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Side(StrEnum):
    """Which height of some members or boards is meant; or a length as it is given."""

    UNDER = "under"
    OVER = "over"
    GIVEN = "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """The lowest underside or the highest top of some members and boards over the floor, or a length [mm]."""

    side: Side
    names: tuple[str, ...] = ()
    length: float = 0.0


def under(*names: str) -> Size:
    """Ask for the height of the lowest underside of some members or boards."""
    return Size(side=Side.UNDER, names=names)


def over(*names: str) -> Size:
    """Ask for the height of the highest top of some members or boards."""
    return Size(side=Side.OVER, names=names)


def given(length: float) -> Size:
    """Give a length that nothing of the frame carries [mm]."""
    return Size(side=Side.GIVEN, length=length)
