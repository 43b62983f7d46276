"""A fitting at its place, and the tubes that it holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NewType

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.rules import KEY_LEAD
from tubeframe.joints.facts import Named

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.errors import Finding
    from tubeframe.frame.member import EndKind, MemberId
    from tubeframe.frame.node import TubeEnd
    from tubeframe.geometry.convex import Convex
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.placement import Placement
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.select import Refusal

JointId = NewType("JointId", str)
TubeId = NewType("TubeId", str)

UNRESOLVED = "unresolved"
"""The kind of a joint that no fitting takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PortUse:
    """A tube in a port.

    `at` is the distance of the port's middle along the tube's centreline from A [mm], counted from the node at A;
    `axis` and `up` are the port's unit vectors in space. `end` is the tube's end that is held, None for a run.
    """

    port: str
    role: PortRole
    tube: TubeId
    at: float
    axis: Vec
    up: Vec
    end: TubeEnd | None = None
    swing_angle: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A fitting, placed and turned; `fitting` is None where none fits. A cap or foot is a joint of one tube.

    `refused` are the kinds that were not taken here, and why.
    """

    id: JointId
    at: Vec
    placement: Placement
    fitting: SizedFitting | None
    uses: tuple[PortUse, ...]
    refused: tuple[Refusal, ...] = ()

    @property
    def kind(self) -> str:
        """Key of the kind of fitting."""
        return self.fitting.kind.key if self.fitting else UNRESOLVED

    @property
    def named(self) -> Named:
        """The fitting by its kind and tubes, as findings name it."""
        return Named(kind=self.kind, tubes=tuple(dict.fromkeys(u.tube for u in self.uses)))

    @property
    def bolts(self) -> int:
        """How many bolts it takes."""
        return self.fitting.kind.bolts if self.fitting else 0

    @property
    def is_end_piece(self) -> bool:
        """Whether it only sits on one tube's end."""
        return all(u.role is PortRole.END for u in self.uses)

    @property
    def body(self) -> tuple[Convex, ...]:
        """The envelope as convex pieces in space [mm]."""
        if self.fitting is None:
            return ()
        return tuple(piece.placed(self.placement) for piece in self.fitting.body)

    def setback(self, use: PortUse) -> float:
        """Return where a held end stops, from the node [mm]."""
        return self.fitting.port(use.port).setback if self.fitting else 0.0

    def taken_off(self, use: PortUse, end: EndKind) -> float:
        """Return what is cut off a tube's end here [mm]: the setback, or the thickness of what it stands on."""
        if use.role is PortRole.BRANCH:
            return self.setback(use)
        return self.fitting.taken_off if self.fitting and end.shortens else 0.0

    def held(self, use: PortUse) -> float:
        """Return the length of tube from the node that the fitting takes up on one side [mm]."""
        if self.fitting is None:
            return 0.0
        port = self.fitting.port(use.port)
        match use.role:
            case PortRole.RUN:
                return port.grip / 2.0
            case PortRole.BRANCH:
                return port.setback + port.grip
            case PortRole.END:
                return self.fitting.held_at_end


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A tube that is cut from one stick: a member, or a part of one that is longer than a stick.

    `path` runs from node to node; fittings' setbacks are not yet taken off.
    """

    id: TubeId
    member: MemberId
    size: str
    path: Path
    end_a: EndKind
    end_b: EndKind


ENOUGH = KEY_LEAD - 0.5
"""With this much a key still goes in [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltWay:
    """A bolt in place: its middle [mm], the way its head faces, and the straight way that is free before it [mm].

    `boards_on` is false where the key goes in only before boards are laid.
    """

    joint: JointId
    port: str
    at: Vec
    head: Vec
    free: float
    boards_on: bool = True

    @property
    def is_reached(self) -> bool:
        """Whether the key has its straight lead."""
        return self.free >= ENOUGH


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """A tube carries a board between two places along it, from its node at A [mm]; of no length on a tube's end.

    `through` is the board between them that the upper one lies on, if there is one.
    """

    board: str
    tube: TubeId
    start: float
    end: float
    through: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Jointed:
    """All tubes and joints of a frame, which way the bolts face, what carries the boards, and what was found wrong."""

    tubes: tuple[Tube, ...]
    joints: tuple[Joint, ...]
    bolts: tuple[BoltWay, ...]
    bearings: tuple[Bearing, ...]
    findings: tuple[Finding, ...]


UsesByTube = dict[TubeId, list[tuple[Joint, PortUse]]]


def uses_by_tube(joints: Iterable[Joint]) -> UsesByTube:
    """Return for every tube the fittings on it, each with its port, in the order of the joints."""
    found: UsesByTube = {}
    for joint in joints:
        for use in joint.uses:
            found.setdefault(use.tube, []).append((joint, use))
    return found
