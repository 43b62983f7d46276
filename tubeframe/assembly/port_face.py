"""Parts, and the ports that tie them, as the assembly looks at them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole

if TYPE_CHECKING:
    from tubeframe.assembly.step import PartKind
    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.geometry.extent import Extent
    from tubeframe.geometry.sweep import Shape
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, PortUse

Number = int
"""A part: tubes first, then joints, then boards, each as stated."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Part:
    """One part, and the convex solids that it takes up."""

    number: Number
    kind: PartKind
    id: str
    shapes: tuple[Shape, ...]
    boxes: tuple[Extent, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PortFace:
    """A tube's place in a fitting: which tube, the port's axis, and the way its mouth opens; None for one that is shut.

    A branch's axis runs from the fitting out along its tube, an end piece's from the end into it. `depth` is what a
    held end goes in, `to_ends` what a run goes on against its axis and along it [mm]. `is_unknown` where no fitting
    was found: then nothing is asked of it.
    """

    use: PortUse
    tube: Number
    axis: Vec
    mouth: Vec | None
    outside: float
    depth: float
    to_ends: tuple[float, float] = (0.0, 0.0)
    is_unknown: bool = False

    @property
    def name(self) -> str:
        """The port's name."""
        return self.use.port

    @property
    def is_run(self) -> bool:
        """Whether its tube passes through."""
        return self.use.role is PortRole.RUN

    def ahead(self, way: Vec) -> float:
        """Return how much of its tube goes on past it on the side away from where the tube comes from [mm]."""
        return self.to_ends[0] if way.dot(self.axis) > 0.0 else self.to_ends[1]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """A joint: its fitting's ports."""

    number: Number
    joint: Joint
    faces: tuple[PortFace, ...]

    @property
    def is_end_piece(self) -> bool:
        """Whether it sits on one tube's end."""
        return self.joint.is_end_piece

    @property
    def is_cap(self) -> bool:
        """Whether it closes an end off the floor: the last thing that goes on where nothing forbids it."""
        fitting = self.joint.fitting
        return self.is_end_piece and fitting is not None and fitting.kind.on_floor is None

    @property
    def stands_on_floor(self) -> bool:
        """Whether it is an end piece that stands on the floor."""
        fitting = self.joint.fitting
        return self.is_end_piece and fitting is not None and fitting.kind.on_floor is not None

    @property
    def is_shut(self) -> bool:
        """Whether none of its ports opens to the side."""
        return all(f.mouth is None and not f.is_unknown for f in self.faces)

    @property
    def is_lone(self) -> bool:
        """Whether it holds one tube alone."""
        return len({f.tube for f in self.faces}) < 2

    def face(self, tube: Number) -> PortFace:
        """Return the port of a tube."""
        return next(f for f in self.faces if f.tube == tube)

    def of(self, tube: Number) -> tuple[PortFace, ...]:
        """Return all ports that take a tube."""
        return tuple(f for f in self.faces if f.tube == tube)


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What a tube or a board weighs [kg] and where, from above [mm]; where it stands, and whether it is held there."""

    mass: float
    at: tuple[float, float]
    feet: tuple[tuple[float, float], ...] = ()
    is_anchored: bool = False


def is_split(kind: FittingKind) -> bool:
    """Whether a fitting's shells come apart, so that tubes are laid in from the side.

    Two bolted shells with an ear at each port do; a sleeve, a cap, a flange and a ring on one tube alone do not.
    Common practice, no source.
    """
    ears = {e.port for e in kind.ears}
    return not kind.is_end_piece and len(kind.ports) > 1 and all(p.name in ears for p in kind.ports)
