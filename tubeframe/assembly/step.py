"""What is done in a step of the assembly, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import TYPE_CHECKING

from tubeframe.frame.caution import Moment
from tubeframe.joints.joint import JointId, TubeId

if TYPE_CHECKING:
    from tubeframe.frame.job import Job
    from tubeframe.geometry.vector import Vec


class Work(Enum):
    """What a step is for, in the order of the work; each with the moment whose cautions go before it."""

    SET_OUT = Moment.SETTING_OUT
    FLAT = Moment.FLAT
    STAND = Moment.STANDING
    SQUARE = "square"
    BRACE = Moment.BRACING
    TIGHTEN = Moment.TIGHTENING
    STRIPS = "strips"
    TOP = "top"
    ANCHOR = Moment.ANCHORING
    CAPS = "caps"
    DOOR = "door"
    COVER = Moment.COVERING
    LAST_LOOK = Moment.USE


class PartKind(StrEnum):
    """What a part is."""

    MEMBER = "member"
    JOINT = "joint"
    PANEL = "panel"


class Hold(StrEnum):
    """What keeps a new part where it is, when no single joint does."""

    ITSELF = "itself"
    PERSON = "person"
    FLOOR = "floor"


class Tool(StrEnum):
    """What is taken in hand."""

    KEY = "key"
    TAPE = "tape"
    STRING = "string"
    HAMMER = "hammer"
    SOFT_HAMMER = "soft hammer"
    DRILL = "drill"
    DRIVER = "driver"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A joint's port that a part goes into, or that takes a tube when the part is the joint itself."""

    joint: JointId
    port: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One part comes to its place.

    It comes from `direction` (a unit vector), in a straight line over `distance` [mm] that is free of all that stands
    then. `opens` says that standing clamps are opened for it, or that it is a clamp which closes round tubes that are
    there. A joint that comes before its only tube is put on it in the hand, and moves with it.
    """

    part: str
    kind: PartKind
    into: tuple[Entry, ...]
    direction: Vec
    distance: float
    opens: bool
    held_by: Hold | JointId


@dataclass(frozen=True, slots=True, kw_only=True)
class Raising:
    """A sub-frame that was built flat is stood at its place, after so many of the step's operations.

    The rest is as in an operation.
    """

    sub_frame: str
    after: int
    into: tuple[Entry, ...]
    direction: Vec
    distance: float
    held_by: Hold | JointId


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A new part is drawn this far off its place, and comes in the opposite way [mm]."""

    what: str
    direction: Vec
    distance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What is raised, then added, then tightened for good.

    `sub_frames` are those built flat in it: more than one when they are alike, and the work is done once for each.
    `jobs` are what is done besides. `part_of` says which part of the building of a sub-frame it is, and of how many.
    """

    number: int
    work: Work
    raises: tuple[Raising, ...] = ()
    operations: tuple[Operation, ...] = ()
    sub_frames: tuple[str, ...] = ()
    jobs: tuple[Job, ...] = ()
    part_of: tuple[int, int] = (1, 1)
    tightens: tuple[JointId, ...] = ()
    tools: tuple[Tool, ...] = ()
    hands: int = 1
    stands: bool = True

    @property
    def tubes(self) -> tuple[TubeId, ...]:
        """Tubes that are added, in turn."""
        return tuple(TubeId(o.part) for o in self.operations if o.kind is PartKind.MEMBER)

    @property
    def joints(self) -> tuple[JointId, ...]:
        """Fittings that are added, in turn."""
        return tuple(JointId(o.part) for o in self.operations if o.kind is PartKind.JOINT)

    @property
    def panels(self) -> tuple[str, ...]:
        """Boards that are added, in turn."""
        return tuple(o.part for o in self.operations if o.kind is PartKind.PANEL)

    @property
    def moves(self) -> tuple[Move, ...]:
        """How each new part is drawn apart."""
        return tuple(Move(what=o.part, direction=o.direction, distance=o.distance) for o in self.operations)
