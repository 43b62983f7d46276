"""Sizes of a frame that words are made with: taken from its members and boards, so that they follow every change."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Side(StrEnum):
    """Which height of members or boards is meant, or how far one stands past others; or a length as it is given."""

    UNDER = "under"
    OVER = "over"
    BEYOND_X = "beyond-x"
    BEYOND_Y = "beyond-y"
    GIVEN = "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """The lowest underside or the highest top of some members and boards over the floor, or a length [mm].

    How far past: of the first name past all the others, on the side where it is more.
    """

    side: Side
    names: tuple[str, ...] = ()
    length: float = 0.0


def under(*names: str) -> Size:
    """Ask for the height of the lowest underside of some members or boards."""
    return Size(side=Side.UNDER, names=names)


def over(*names: str) -> Size:
    """Ask for the height of the highest top of some members or boards."""
    return Size(side=Side.OVER, names=names)


def beyond(name: str, *others: str) -> tuple[Size, Size]:
    """Ask how far a board or member stands past others, along x and along y."""
    names = (name, *others)
    return Size(side=Side.BEYOND_X, names=names), Size(side=Side.BEYOND_Y, names=names)


def given(length: float) -> Size:
    """Give a length that nothing of the frame carries [mm]."""
    return Size(side=Side.GIVEN, length=length)
