"""A fitting for given tubes: where each tube's axis runs, where its end stops, what is held, and the body."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import FittingKind, OnFloor, PortRole
from tubeframe.catalog.measurable import deciding_lengths
from tubeframe.geometry.convex import Box, Cylinder
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import ORIGIN, Vec, X, Y, Z, rotated

if TYPE_CHECKING:
    from tubeframe.catalog.fitting import Ear
    from tubeframe.catalog.measured import Sizes
    from tubeframe.geometry.convex import Convex

_BRANCH_SLIMMER = 0.5
"""A branch's sleeve is this much smaller in radius than the run's [mm]: sleeves of one radius meet in curves that
CAD kernels break on."""
_SLIP = 0.25
"""Room round a sleeve inside a tube [mm]. Common practice, no source."""
_SLIP_WALL = 2.0
_STEM = 0.4
"""Radius of the stem to a wall, in the tube's diameters."""
_EAR_THICKNESS = 9.5
_EAR_SHARE = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedPort:
    """A port for a tube of a size: axis, `up` and middle in the fitting's own frame; lengths in [mm].

    `setback` is where a branch's cut end stops, measured from the middle. `grip` is the length held. `swing_angle`
    is the angle from x of a port that turns [degree].
    """

    name: str
    role: PortRole
    axis: Vec
    up: Vec
    middle: Vec
    tube: str
    outside: float
    inside: float
    setback: float
    grip: float
    swing_angle: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltPlace:
    """A bolt across an ear: the port that it closes, its middle, the way it runs, and to the ear's face (all [mm])."""

    port: str
    at: Vec
    axis: Vec
    half: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedFitting:
    """A fitting for given tubes (lengths in [mm]).

    `thickness` is what an end piece takes off a tube that stands upright on it, `plate` how thick its plate is.
    `measured` are the lengths that the user measured; the others are generic.
    """

    kind: FittingKind
    sizes: Sizes
    measured: tuple[str, ...]
    ports: tuple[SizedPort, ...]
    offset: float
    thickness: float
    plate: float
    skirt: float
    ear_reach: float
    end_shell: float

    def port(self, name: str) -> SizedPort:
        """Return the port of that name."""
        return next(p for p in self.ports if p.name == name)

    @property
    def held_at_end(self) -> float:
        """What an end piece takes up of its tube, as drawn to the end or to the floor [mm]."""
        return self.skirt + (self.thickness if self.kind.on_floor else 0.0)

    @property
    def is_generic(self) -> bool:
        """Whether a length that places or cuts its tubes is a guess."""
        return any(key not in self.measured for key in deciding_lengths(self.kind))

    @property
    def taken_off(self) -> float:
        """What an end piece that stands on the floor takes off its tube, along it [mm]: T/sin A at an angle A."""
        angle = self.ports[0].swing_angle
        return self.thickness if angle is None else self.thickness / math.sin(math.radians(angle))

    @property
    def body(self) -> tuple[Convex, ...]:
        """The envelope as convex pieces in the fitting's own frame [mm]; a cylinder's bore is where its tube goes."""
        if self.ports[0].role is PortRole.END:
            return self._end_body() + self._ears()
        return tuple(self._sleeve(p) for p in self.ports) + self._on_wall() + self._ears()

    @property
    def bolts(self) -> tuple[BoltPlace, ...]:
        """Where its bolts go across the ears, in the fitting's own frame; none where screws press on the tube."""
        places = ((e.port, self._ear(self.port(e.port), self._way_out(e))) for e in self.kind.ears)
        return tuple(
            BoltPlace(port=port, at=ear.centre, axis=ear.half_z.unit, half=ear.half_z.length) for port, ear in places
        )

    def _sleeve(self, port: SizedPort) -> Cylinder:
        # one outside all along a sleeve: over ends of two sizes it would fall apart where they meet
        widest = max(p.outside for p in self.ports) if self.kind.is_sleeve else port.outside
        if self.kind.inside:
            return self._slipped_in(port)
        radius = widest / 2.0 + self.kind.shell
        if port.role is PortRole.RUN:
            half = port.axis * (port.grip / 2.0)
            slimmer = _BRANCH_SLIMMER if port.middle != ORIGIN else 0.0
            start, end = port.middle - half, port.middle + half
        else:
            has_run = any(p.role is PortRole.RUN for p in self.ports)
            rank = [p.name for p in self.ports if p.role is PortRole.BRANCH].index(port.name)
            slimmer = 0.0 if self.kind.is_sleeve else _BRANCH_SLIMMER * (rank + has_run)
            start, end = port.middle, port.middle + port.axis * (port.setback + port.grip)
        return Cylinder(start=start, end=end, radius=radius - slimmer, bore=port.outside / 2.0)

    def _on_wall(self) -> tuple[Cylinder, ...]:
        """Return the stem and the plate of a fitting that stands on a wall."""
        way, outside = self.kind.wall, self.ports[0].outside
        if way is None:
            return ()
        stem = Cylinder(start=ORIGIN, end=way * self.offset, radius=outside * _STEM)
        radius = outside * self.kind.plate_diameters / 2.0
        return (stem, Cylinder(start=way * (self.offset - self.plate), end=way * self.offset, radius=radius))

    def _slipped_in(self, port: SizedPort) -> Cylinder:
        """Return the part of a sleeve that is in one of its tubes; the narrower bore rules over both."""
        radius = min(p.inside for p in self.ports) / 2.0 - _SLIP
        end = port.axis * (port.setback + port.grip)
        return Cylinder(start=ORIGIN, end=end, radius=radius, bore=radius - _SLIP_WALL)

    def _ears(self) -> tuple[Box, ...]:
        return tuple(self._ear(self.port(e.port), self._way_out(e)) for e in self.kind.ears)

    def _way_out(self, ear: Ear) -> Vec:
        """Return the way an ear sticks out: it turns along with a port that swings out of its stated axis."""
        angle = self.port(ear.port).swing_angle
        if angle is None:
            return ear.toward
        return rotated(ear.toward, X.cross(self.kind.port(ear.port).axis), math.radians(angle - 90.0))

    def _ear(self, port: SizedPort, toward: Vec) -> Box:
        way = toward.across(port.axis).unit
        inner = port.outside / 2.0
        middle = port.middle + way * (inner + self.ear_reach / 2.0)
        if port.role is PortRole.BRANCH:
            middle += port.axis * (port.setback + port.grip / 2.0)
        elif port.role is PortRole.END:
            middle += port.axis * (self.skirt / 2.0)
        held = self.skirt if port.role is PortRole.END else port.grip
        return Box(
            centre=middle,
            half_x=port.axis * (held * _EAR_SHARE / 2.0),
            half_y=way * (self.ear_reach / 2.0),
            half_z=port.axis.cross(way) * (_EAR_THICKNESS / 2.0),
        )

    def _end_body(self) -> tuple[Convex, ...]:
        port = self.ports[0]
        if port.swing_angle is not None:
            return self._swivel_body(port)
        radius = port.outside / 2.0 + self.end_shell
        plate = port.outside * self.kind.plate_diameters / 2.0 or radius
        below, above = port.axis * -self.thickness, port.axis * self.skirt
        skirt = Cylinder(start=ORIGIN, end=above, radius=radius, bore=port.outside / 2.0)
        if self.thickness <= TINY:
            return (skirt,)
        if self.thickness <= 2.0 * self.plate:
            return (Cylinder(start=below, end=ORIGIN, radius=plate), skirt)
        return (*self._raised(port, plate), skirt)

    def _raised(self, port: SizedPort, wide: float) -> tuple[Cylinder, ...]:
        """Return what a high piece stands on, a plate or a wheel, its stem, and what closes its skirt."""
        floor, stem = port.axis * -self.thickness, port.outside * _STEM
        closing = Cylinder(start=port.axis * -self.plate, end=ORIGIN, radius=port.outside / 2.0 + self.end_shell)
        if self.kind.on_floor is OnFloor.ROLLING:
            half = port.up * (wide / 3.0)
            hub = floor + port.axis * wide
            wheel = Cylinder(start=hub - half, end=hub + half, radius=wide)
            return wheel, Cylinder(start=hub, end=ORIGIN, radius=stem), closing
        top = floor + port.axis * self.plate
        return Cylinder(start=floor, end=top, radius=wide), Cylinder(start=floor, end=ORIGIN, radius=stem), closing

    def _swivel_body(self, port: SizedPort) -> tuple[Convex, ...]:
        """Return a plate on the floor, a round knuckle across, half its plate's thickness into it, and the skirt."""
        plate = min(self.plate, self.thickness / 2.0)
        wide, half = port.outside * self.kind.plate_diameters / 2.0, Y * (port.outside / 2.0)
        skirt = Cylinder(
            start=ORIGIN,
            end=port.axis * self.skirt,
            radius=port.outside / 2.0 + self.end_shell,
            bore=port.outside / 2.0,
        )
        return (
            Cylinder(start=Z * -self.thickness, end=Z * (plate - self.thickness), radius=wide),
            skirt,
            Cylinder(start=-half, end=half, radius=self.thickness - plate / 2.0),
        )
