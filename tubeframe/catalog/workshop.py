"""The user's own shop, merged over the shipped tables."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.catalog.catalog import Catalog, shipped_catalog
from tubeframe.catalog.drafting import Drafting, Projection
from tubeframe.catalog.fitting import LIFT, FittingKind, Port, PortRole, setback_floor
from tubeframe.catalog.sized import SizedFitting, SizedPort
from tubeframe.errors import CatalogError, Problem
from tubeframe.geometry.units import Units, format_exact
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.hardware import Bender
    from tubeframe.catalog.stock import Stock


class Paper(StrEnum):
    """Paper that sheets are printed on."""

    LETTER = "letter"
    A4 = "a4"
    TABLOID = "tabloid"
    A3 = "a3"

    @property
    def size(self) -> tuple[float, float]:
        """Width and height as drawn, small sheets upright and large ones lying [mm] (ISO 216, ANSI/ASME Y14.1)."""
        return {
            Paper.LETTER: (215.9, 279.4),
            Paper.A4: (210.0, 297.0),
            Paper.TABLOID: (431.8, 279.4),
            Paper.A3: (420.0, 297.0),
        }[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What the user measured on fittings of one kind; None where the generic rule stays. Lengths in [mm]."""

    kind: str
    setback: float | None = None
    setback_by_angle: tuple[tuple[float, float], ...] = ()
    grip: float | None = None
    branch_grip: float | None = None
    offset: float | None = None
    length: float | None = None
    thickness: float | None = None
    slip_force: float | None = None
    twist_moment: float | None = None
    bolt_torque: float | None = None
    price: float | None = None
    on_hand: int = 0

    def setback_at(self, angle: float | None) -> float | None:
        """Return the measured setback [mm] at an angle [degree], if there is one within half a degree."""
        for at, value in self.setback_by_angle:
            if angle is not None and abs(at - angle) < 0.5:
                return value
        return self.setback


_NOTHING = Measured(kind="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """What is true of the person's own shop. Lengths in [mm].

    `layout_table` is the table that full-size drawings are laid on: its length and width; None when there is none.
    """

    catalog: Catalog
    units: Units
    paper: Paper
    currency: str | None
    tube: str
    kerf: float
    carry_length: float | None
    layout_table: tuple[float, float] | None
    stocks: tuple[Stock, ...]
    measured: tuple[Measured, ...]
    benders: tuple[Bender, ...]
    tool_gap: float
    drafting: Drafting

    def measures(self, kind: str) -> Measured:
        """Return what was measured on a kind, or nothing."""
        return next((m for m in self.measured if m.kind == kind), _NOTHING)

    def bend_radius(self, tube: str) -> float:
        """Return the radius on the centreline that the shop's bender makes in a tube [mm]."""
        return self.bender(tube).radius

    def bender(self, tube: str) -> Bender:
        """Return the shop's bender for a tube, the user's own before the shipped one."""
        found = [b for b in self.benders + self.catalog.benders if b.tube == tube]
        if not found:
            raise CatalogError(
                Problem(where="workshop", key="bender", message=f"no bender is known for {tube}", remedy="add one")
            )
        return found[0]

    def sticks(self, tube: str) -> tuple[Stock, ...]:
        """Return what a tube can be cut from."""
        return tuple(s for s in self.stocks if s.tube == tube)

    def longest_stick(self, tube: str) -> float:
        """Return the longest usable length that can be bought [mm]."""
        bought = [s.usable for s in self.sticks(tube) if s.bought]
        return max(bought, default=max((s.usable for s in self.sticks(tube)), default=0.0))

    def grip(self, kind: str, outside: float) -> float:
        """Return the length that a kind holds on a run of an outside diameter [mm]."""
        return self.measures(kind).grip or self.catalog.rules.grip(outside)

    def branch_grip(self, kind: str, outside: float) -> float:
        """Return the length that a kind holds on a branch of an outside diameter [mm]; half of a sleeve."""
        measures, rules = self.measures(kind), self.catalog.rules
        if self.catalog.kind(kind).is_sleeve:
            return self.sleeve_length(outside) / 2.0
        return measures.branch_grip or rules.branch_grip_diameters * outside

    def sleeve_length(self, outside: float) -> float:
        """Return the whole length of a sleeve coupler on a tube of an outside diameter [mm]."""
        return self.measures("sleeve-coupler").length or self.catalog.rules.sleeve_diameters * outside

    def coupler_offset(self, kind: str, first: float, second: float) -> float:
        """Return the distance of the axes of two runs in a coupler, from their outside diameters [mm]."""
        return self.measures(kind).offset or (first + second) / 2.0 + self.catalog.rules.coupler_gap

    def end_overhang(self, kind: str, outside: float) -> float:
        """Return the least length that a run goes on past the middle of a fitting [mm]."""
        return self.grip(kind, outside) / 2.0 + self.catalog.rules.end_overhang

    def end_thickness(self, kind: str) -> float:
        """Return what a foot, a cap or a base flange adds below a tube's end [mm]."""
        measured = self.measures(kind).thickness
        return self.catalog.rules.end_thickness if measured is None else measured

    def sized(self, kind: FittingKind, outside: Mapping[str, float], angle: float | None = None) -> SizedFitting:
        """Size a fitting for its tubes.

        Args:
            kind: what it is.
            outside: outside diameter of the tube in each port, by the port's name [mm].
            angle: the angle from x of a port that swings [degree].

        Raises:
            CatalogError: when a measured setback lies under the floor of a square-cut end.

        """
        rules = self.catalog.rules
        offset = self.coupler_offset(kind.key, *(outside[p.name] for p in kind.ports[:2])) if kind.is_coupler else 0.0
        return SizedFitting(
            kind=kind,
            ports=tuple(self._sized_port(kind, p, outside, angle, offset) for p in kind.ports),
            offset=offset,
            thickness=self.end_thickness(kind.key),
            skirt=kind.skirt,
            ear_reach=rules.ears,
            end_shell=rules.end_shell,
        )

    def _sized_port(
        self, kind: FittingKind, port: Port, outside: Mapping[str, float], angle: float | None, offset: float
    ) -> SizedPort:
        held = self.branch_grip if port.role is PortRole.BRANCH else self.grip
        return SizedPort(
            name=port.name,
            role=port.role,
            axis=port.axis_at(angle),
            up=port.up,
            middle=LIFT * offset if port.lifted else ORIGIN,
            outside=outside[port.name],
            setback=self._setback(kind, port, outside, angle) if port.role is PortRole.BRANCH else 0.0,
            grip=held(kind.key, outside[port.name]),
            swing_angle=angle if port.swing else None,
        )

    def _setback(self, kind: FittingKind, port: Port, outside: Mapping[str, float], angle: float | None) -> float:
        others = tuple((p.axis_at(angle), p.role is PortRole.RUN) for p in kind.ports if p.name != port.name)
        run = next((outside[p.name] for p in kind.ports if p.role is PortRole.RUN), 0.0)
        floor = setback_floor(port.axis_at(angle), others, run, outside[port.name])
        measured = self.measures(kind.key).setback_at(angle)
        if measured is None:
            return floor + kind.setback_over_floor
        if measured < floor - 1e-6:
            raise CatalogError(self._below_floor(kind.key, measured, floor))
        return measured

    def _below_floor(self, kind: str, measured: float, floor: float) -> Problem:
        return Problem(
            where="workshop",
            key=f"fittings.{kind}.setback",
            message=f"{format_exact(measured, self.units)} is under {format_exact(floor, self.units)}, "
            "where a square-cut end already touches the other tube",
            remedy="measure again: from the run's centreline to the end of the branch",
        )


def generic_workshop(units: Units = Units.INCH) -> Workshop:
    """Return a shop with nothing of its own: the shipped tables alone."""
    catalog = shipped_catalog()
    return Workshop(
        catalog=catalog,
        units=units,
        paper=Paper.LETTER if units is Units.INCH else Paper.A4,
        currency=None,
        tube="emt-3/4",
        kerf=0.0,
        carry_length=None,
        layout_table=None,
        stocks=catalog.stocks,
        measured=(),
        benders=(),
        tool_gap=catalog.rules.tool_gap,
        drafting=Drafting(projection=Projection.THIRD if units is Units.INCH else Projection.FIRST),
    )
