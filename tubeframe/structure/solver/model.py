"""What the solver is given: points, bars with springs at their ends, rigid links, what is held. N, mm, MPa, kg."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tubeframe.geometry.vector import ORIGIN, Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A section that bends alike every way.

    Young's and shear modulus [MPa], area [mm^2], second moment and torsion constant [mm^4], density [kg/m^3].
    """

    young: float
    shear: float
    area: float
    inertia: float
    torsion: float
    density: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring:
    """What holds a bar's end to its node, about the bar's axis and square to it [N mm/rad].

    Infinite is rigid, 0 is released.
    """

    twist: float = math.inf
    bend: float = math.inf

    @property
    def is_rigid(self) -> bool:
        """Whether the end turns with its node."""
        return math.isinf(self.twist) and math.isinf(self.bend)

    @property
    def about(self) -> tuple[float, float, float]:
        """Its stiffness about the bar's x, y and z [N mm/rad]."""
        return (self.twist, self.bend, self.bend)


RIGID = Spring()
HINGED = Spring(bend=0.0)
RELEASED = Spring(twist=0.0, bend=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A straight bar between two points, by their numbers; solved as so many elements of equal length."""

    start: int
    end: int
    section: Section
    start_spring: Spring = RIGID
    end_spring: Spring = RIGID
    elements: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A rigid arm from one point to another; `spring` lets the second turn against it, about `axis` and square to it.

    No point is the second one of two links, or the second of one and the first of another.
    """

    first: int
    second: int
    axis: Vec
    spring: Spring = RIGID


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A point that is held: along x, y, z and about them."""

    point: int
    along: tuple[bool, bool, bool] = (True, True, True)
    about: tuple[bool, bool, bool] = (False, False, False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bedding:
    """Springs from a point to the ground, along x, y, z [N/mm] and about them [N mm/rad]."""

    point: int
    along: Vec = ORIGIN
    about: Vec = ORIGIN


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """A mass at a point [kg]."""

    point: int
    mass: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """A space frame."""

    points: tuple[Vec, ...]
    bars: tuple[Bar, ...]
    held: tuple[Held, ...]
    links: tuple[Link, ...] = ()
    beddings: tuple[Bedding, ...] = ()
    masses: tuple[Mass, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PointForce:
    """A force [N] and a moment [N mm] at a point."""

    point: int
    force: Vec = ORIGIN
    moment: Vec = ORIGIN


@dataclass(frozen=True, slots=True, kw_only=True)
class BarForce:
    """A force spread evenly along a whole bar [N/mm of its length]."""

    bar: int
    per_length: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Forces:
    """What acts at one time."""

    points: tuple[PointForce, ...] = ()
    bars: tuple[BarForce, ...] = ()
