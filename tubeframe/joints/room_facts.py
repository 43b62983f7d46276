"""What can be found where things take up room: ends in tubes, boards, the floor (lengths in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Fact

if TYPE_CHECKING:
    from tubeframe.frame.node import TubeEnd
    from tubeframe.joints.facts import Named


@dataclass(frozen=True, slots=True, kw_only=True)
class EndInTube(Fact):
    """A tube ends inside another one, by `short`."""

    tube: str
    end: TubeEnd
    other: str
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingInBoard(Fact):
    """A fitting stands `short` into a board that is `thickness` thick, or through it."""

    panel: str
    fitting: Named
    short: float
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardsMeet(Fact):
    """Two boards go `short` into each other."""

    first: str
    second: str
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardFloats(Fact):
    """No tube carries a board; the nearest one is `gap` under it, if any is."""

    panel: str
    nearest: str | None
    gap: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OffFloor(Fact):
    """An end that stands on the floor is `height` above it, or below when that is negative."""

    tube: str
    end: TubeEnd
    piece: str
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BelowFloor(Fact):
    """A tube or a fitting goes `short` below the floor."""

    thing: str | Named
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopedFoot(Fact):
    """A square foot or flange is on a tube that leans by `lean` [degree]: its edge would go `short` into the floor."""

    tube: str
    end: TubeEnd
    piece: str
    lean: float
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PastSwing(Fact):
    """A tube leans by `lean`, but what it stands on turns by `most` only [degree]."""

    tube: str
    end: TubeEnd
    piece: str
    lean: float
    most: float
