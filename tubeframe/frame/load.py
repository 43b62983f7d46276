"""What holds a frame and what it carries: kept with it for the structural model."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.member import MemberId
    from tubeframe.frame.node import TubeEnd
    from tubeframe.geometry.vector import Vec


class LoadUse(StrEnum):
    """Why a load is there: to be carried in use, to be pushed at by a hand, to be driven about."""

    CARRIED = "carried"
    PUSH = "push"
    ROAD = "road"
    OFF_ROAD = "off-road"

    @property
    def is_driven(self) -> bool:
        """Whether it is driven about."""
        return self in {LoadUse.ROAD, LoadUse.OFF_ROAD}


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """An end that is held, and along which axes."""

    member: str
    end: TubeEnd
    fixes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A load on a panel or a member, in all [N], and which way it pushes; loads of one name act together.

    Without a total it is a share of what the user asks for; a push is then the usual one. On a member it may be spread
    between two places measured from A [mm], or stand at one; None for all of it. On a panel `at` is where its middle
    is, in shares of the panel's length and width.
    """

    name: str
    on: str
    direction: Vec
    total: float | None = None
    share: float = 1.0
    use: LoadUse = LoadUse.CARRIED
    span: tuple[float, float] | None = None
    at: tuple[float, float] = (0.5, 0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """A sheet over tubes that stand one behind the other, for wind and snow.

    `over` are those tubes from one end to the other; `width`, `length` and `height` the box that it covers [mm].
    `closed_ends` when it is drawn over both ends too, on the tubes that stand there.
    """

    over: tuple[MemberId, ...]
    width: float
    length: float
    height: float
    closed_ends: bool = False
