"""What a template may ask of the shop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.catalog.fitting import PortRole
from tubeframe.geometry.units import Units, format_length

if TYPE_CHECKING:
    from tubeframe.catalog.hardware import Stake
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.geometry.path import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingSizes:
    """What a layout depends on of a kind of fitting, on tubes of one size (all [mm]).

    `setback`: middle to a branch's cut end (0 without a branch); `reach`: middle to where the body ends on a branch;
    `body_radius`: of the body round a tube; `ears`: from a tube's middle to where its ears end; `grip`: held on a
    run; `offset`: between the runs of a coupler (0 without); `overhang`: least length of a run past the middle;
    `off_bend`: middle on a run to the nearest bend's start; `stands`: from the floor to where an end piece lets go of
    its tube (0 for others); `least_arc`: radius of the tightest arc that it sits on, a sleeve's by its length.
    """

    setback: float
    reach: float
    body_radius: float
    ears: float
    grip: float
    offset: float
    overhang: float
    off_bend: float
    stands: float
    least_arc: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """The sizes that a layout depends on. Lengths in [mm]."""

    workshop: Workshop

    @property
    def units(self) -> Units:
        """The units that lengths are printed in."""
        return self.workshop.units

    @property
    def tool_gap(self) -> float:
        """Room for the key between two fittings [mm]."""
        return self.workshop.tool_gap

    def outside(self, tube: str) -> float:
        """Return a tube's outside diameter [mm]."""
        return self.workshop.catalog.tube(tube).outside

    def fitting(self, kind: str, tube: str, angle: float | None = None) -> FittingSizes:
        """Return the sizes of a kind of fitting on tubes of one size; one that swings stands at an angle [degree]."""
        found, size = self.workshop.catalog.kind(kind), self.workshop.catalog.tube(tube)
        sized = self.workshop.sized(found, dict.fromkeys((p.name for p in found.ports), size), angle)
        branch = next((p for p in sized.ports if p.role is PortRole.BRANCH), None)
        grip = self.workshop.grip(found, size)
        return FittingSizes(
            setback=branch.setback if branch else 0.0,
            reach=branch.setback + branch.grip if branch else 0.0,
            body_radius=size.outside / 2.0 + found.shell,
            ears=size.outside / 2.0 + sized.ear_reach,
            grip=grip,
            offset=sized.offset,
            overhang=self.workshop.end_overhang(found, size),
            off_bend=rules.off_bend(grip / 2.0),
            stands=sized.held_at_end if found.on_floor else 0.0,
            least_arc=rules.least_arc(self._sleeve_length(tube) if found.is_sleeve else grip),
        )

    def bend_radius(self, tube: str) -> float:
        """Return the radius that the bender makes, on the centreline [mm]."""
        return self.workshop.bend_radius(tube)

    def fits_stick(self, path: Path, tube: str) -> bool:
        """Tell whether a piece along a centreline comes out of one stick, with what bender or form hold at its ends."""
        allowances = rules.bend_allowances(path, self.bend_radius(tube))
        return rules.fits(rules.stick_length(path.length, allowances, self.units), self.stick_length(tube))

    def pitch(self, kind: str, other: str, tube: str) -> float:
        """Return the least distance of the middles of two fittings on a run [mm]."""
        return rules.pitch(self.fitting(kind, tube).grip / 2.0, self.fitting(other, tube).grip / 2.0, self.tool_gap)

    def sleeve_off(self, kind: str, tube: str) -> float:
        """Return the least distance of a sleeve's middle from that of a fitting on a run [mm]."""
        held, sleeve = self.fitting(kind, tube).grip / 2.0, self._sleeve_length(tube)
        return rules.sleeve_off_fitting(held, sleeve, self.tool_gap)

    def sleeve_off_bend(self, tube: str) -> float:
        """Return the least distance of a sleeve's middle from a bend [mm]."""
        return rules.sleeve_off_bend(self._sleeve_length(tube))

    def stick_length(self, tube: str) -> float:
        """Return the longest usable length that can be bought [mm]."""
        return self.workshop.longest_stick(tube)

    def stake(self, tube: str) -> Stake | None:
        """Return the ground stake that fits inside a tube, if one is known."""
        return self.workshop.catalog.stake(tube)

    def show(self, length: float) -> str:
        """Print a length [mm] in the shop's units."""
        return format_length(length, self.units)

    def _sleeve_length(self, tube: str) -> float:
        return self.workshop.sleeve_length(self.workshop.catalog.tube(tube))
