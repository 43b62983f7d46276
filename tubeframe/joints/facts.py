"""What can be found where tubes meet: each fact says who, by how much, and what the limit is (lengths in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto
from typing import TYPE_CHECKING

from tubeframe.errors import Fact

if TYPE_CHECKING:
    from tubeframe.frame.node import TubeEnd
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.reasons import Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A fitting, by its kind and the tubes that it holds."""

    kind: str
    tubes: tuple[str, ...]

    def others(self, tube: str) -> tuple[str, ...]:
        """Return what it holds beside a tube; the tube itself when there is nothing else."""
        return tuple(t for t in self.tubes if t != tube) or (tube,)


@dataclass(frozen=True, slots=True, kw_only=True)
class TooNear(Fact):
    """Two fittings on a tube have less room than they need, by `short`."""

    tube: str
    member: str
    first: Named
    second: Named
    apart: float
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBend(Fact):
    """A fitting sits too near to a bend, by `short`."""

    tube: str
    fitting: Named
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortOverhang(Fact):
    """A tube ends `over` past the middle of its last fitting, but needs `least`."""

    tube: str
    end: TubeEnd
    fitting: Named
    over: float
    least: float

    @property
    def short(self) -> float:
        """What is missing."""
        return self.least - self.over


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldOnce(Fact):
    """A tube is held at one place only."""

    tube: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Slides(Fact):
    """Nothing next to a ring keeps it from sliding along a tube."""

    tube: str
    fitting: Named


@dataclass(frozen=True, slots=True, kw_only=True)
class WallAway(Fact):
    """A fitting that stands on a wall does not reach it: its plate is `gap` away; None without a wall."""

    fitting: Named
    gap: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fouling(Fact):
    """Two tubes pass `distance` apart, middle to middle, but are `least` thick together; one may bend there."""

    first: str
    second: str
    distance: float
    least: float
    on_bend: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class InBoard(Fact):
    """A tube is `short` above the underside of a board that is `thickness` thick: in it, or through it."""

    panel: str
    tube: str
    short: float
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart(Fact):
    """Tubes that do not hang together with the rest."""

    tubes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BodiesMeet(Fact):
    """The bodies of two fittings run into each other, by `short`."""

    first: Named
    second: Named
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeInBody(Fact):
    """A tube runs into a fitting that does not hold it, by `short`."""

    fitting: Named
    tube: str
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class InWall(Fact):
    """A tube, or a fitting, goes into a wall, by `short`."""

    thing: str | Named
    wall: str
    short: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OnePoint(Fact):
    """Two tubes pass through one point; a coupler would hold them `offset` apart."""

    first: str
    second: str
    offset: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseEnd(Fact):
    """An end that a fitting should take is on no other tube; which one it just misses, by what, if there is one."""

    member: str
    end: TubeEnd
    nearest: str | None = None
    gap: float = 0.0
    is_on_bend: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NoFitting(Fact):
    """No kind takes a node; the nearest one and why it does not, if there is one for as many tubes."""

    tubes: tuple[str, ...]
    runs: int
    branches: int
    at: Vec
    nearest: tuple[str, Reason] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherKind(Fact):
    """A kind that was asked for is not the one: why, and what is there instead."""

    tubes: tuple[str, ...]
    kind: str
    why: Reason
    instead: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WishInTheAir(Fact):
    """A kind is asked for at a place where no tube is."""

    kind: str
    at: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class NoSleevePlace(Fact):
    """A tube longer than a stick has no place for a sleeve."""

    member: str
    stick: float


class SplitFault(Enum):
    """What is wrong with a place where a tube is to be parted."""

    OUTSIDE = auto()
    TOO_CLOSE = auto()
    IN_THE_WAY = auto()
    TOO_LONG = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class BadSplit(Fact):
    """A stated place from end A, that will not do; TOO_LONG: the part that begins there is more than a stick."""

    member: str
    at: float
    fault: SplitFault


@dataclass(frozen=True, slots=True, kw_only=True)
class TooShort(Fact):
    """A tube between its fittings has `left` of its length, which is no piece."""

    tube: str
    left: float
    least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyBlocked(Fact):
    """A bolt has `free` of straight way for the key, but needs `least`; most is free the way `head` looks."""

    fitting: Named
    tube: str
    free: float
    least: float
    head: Vec
