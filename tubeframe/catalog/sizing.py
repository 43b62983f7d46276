"""From a kind and its tubes to a fitting of a size: what was measured, else the generic rules."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import LIFT, PortRole, setback_floor
from tubeframe.catalog.measurable import deciding_lengths
from tubeframe.catalog.measured import ALL_SIZES, BETWEEN, LENGTHS, Measures, sizes_of
from tubeframe.catalog.sized import SizedFitting, SizedPort
from tubeframe.errors import CatalogError, Problem
from tubeframe.geometry.units import Units, format_exact
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.fitting import FittingKind, FittingRules, Port
    from tubeframe.catalog.measured import Sizes
    from tubeframe.catalog.tube import TubeSize

_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizing:
    """The generic rules with what was measured over them; `units` and `where` are those of messages."""

    rules: FittingRules
    measured: Measures
    units: Units
    where: str = "workshop"

    def grip(self, kind: FittingKind, sizes: Sizes, tube: TubeSize) -> float:
        """Return the length held on a run [mm]."""
        return self._known(kind, sizes, "grip", self.rules.grip(tube.outside))

    def branch_grip(self, kind: FittingKind, sizes: Sizes, tube: TubeSize) -> float:
        """Return the length held on a branch [mm]; half of a sleeve."""
        if kind.is_sleeve:
            return self.sleeve_length(kind, sizes, tube) / 2.0
        return self._known(kind, sizes, "branch_grip", self.rules.branch_grip_diameters * tube.outside)

    def sleeve_length(self, kind: FittingKind, sizes: Sizes, tube: TubeSize) -> float:
        """Return the whole length of a sleeve [mm]."""
        return self._known(kind, sizes, "length", self.rules.sleeve_diameters * tube.outside)

    def offset(self, kind: FittingKind, sizes: Sizes, tubes: Mapping[str, TubeSize]) -> float:
        """Return the distance of the axes of a coupler's runs, or from a run to the wall [mm]; 0 without either."""
        if kind.wall:
            run = tubes[kind.ports[0].name]
            return self._known(kind, sizes, "offset", kind.wall_diameters * run.outside)
        if not kind.is_coupler:
            return 0.0
        first, second = (tubes[p.name].outside for p in kind.ports)
        return self._known(kind, sizes, "offset", (first + second) / 2.0 + self.rules.coupler_gap)

    def sized(self, kind: FittingKind, tubes: Mapping[str, TubeSize], angle: float | None) -> SizedFitting:
        """Size a fitting for the tube in each port; CatalogError when what was measured is impossible on these."""
        sizes = sizes_of(kind, tubes)
        offset = self.offset(kind, sizes, tubes)
        nearest = sum(tubes[p.name].outside for p in kind.ports) / 2.0
        if "offset" in deciding_lengths(kind) and offset < nearest - _ROUNDING:
            raise CatalogError(self._too_near(kind, offset, nearest, sizes))
        return SizedFitting(
            kind=kind,
            sizes=sizes,
            measured=self._measured(kind, sizes, angle),
            ports=tuple(self._port(kind, p, tubes, angle, offset) for p in kind.ports),
            offset=offset,
            thickness=self._known(kind, sizes, "thickness", kind.thickness + _pivot(kind, tubes)),
            plate=self.rules.end_thickness,
            skirt=kind.skirt,
            ear_reach=self.rules.ears,
            end_shell=self.rules.end_shell,
        )

    def _measured(self, kind: FittingKind, sizes: Sizes, angle: float | None) -> tuple[str, ...]:
        """Name the lengths that were measured on a fitting; its setback only when all its ends' were."""
        ends = [kind.angle_of(p, angle) for p in kind.ports_of(PortRole.BRANCH)]
        setbacks = ends and all(self.measured.setback(kind.key, sizes, a) is not None for a in ends)
        others = [key for key in LENGTHS if self.measured.value(kind.key, sizes, key) is not None]
        return (*(("setback",) if setbacks else ()), *others)

    def _known(self, kind: FittingKind, sizes: Sizes, key: str, generic: float) -> float:
        measured = self.measured.value(kind.key, sizes, key)
        return generic if measured is None else measured

    def _port(
        self, kind: FittingKind, port: Port, tubes: Mapping[str, TubeSize], angle: float | None, offset: float
    ) -> SizedPort:
        held = self.branch_grip if port.role is PortRole.BRANCH else self.grip
        tube = tubes[port.name]
        return SizedPort(
            name=port.name,
            role=port.role,
            axis=port.axis_at(angle),
            up=port.up,
            middle=LIFT * offset if port.lifted else ORIGIN,
            tube=tube.key,
            outside=tube.outside,
            inside=tube.bore,
            setback=self._setback(kind, port, tubes, angle) if port.role is PortRole.BRANCH else 0.0,
            grip=held(kind, sizes_of(kind, tubes), tube),
            swing_angle=angle if port.swing else None,
        )

    def _setback(self, kind: FittingKind, port: Port, tubes: Mapping[str, TubeSize], angle: float | None) -> float:
        others = tuple((p.axis_at(angle), p.role is PortRole.RUN) for p in kind.ports if p.name != port.name)
        run = next((tubes[p.name].outside for p in kind.ports_of(PortRole.RUN)), 0.0)
        floor = setback_floor(port.axis_at(angle), others, run, tubes[port.name].outside)
        sizes, turned = sizes_of(kind, tubes), kind.angle_of(port, angle)
        found = self.measured.setback(kind.key, sizes, turned)
        if found is None:
            return floor + kind.setback_over_floor
        measured, on = found
        if measured < floor - _ROUNDING:
            raise CatalogError(self._below_floor(kind, (measured, floor), turned, sizes, on))
        return measured

    def _below_floor(
        self, kind: FittingKind, lengths: tuple[float, float], angle: float, sizes: Sizes, on: Sizes
    ) -> Problem:
        """Tell of an impossible setback, and for which size it was measured."""
        name, table = BETWEEN.join(sizes), f'[fittings.{kind.key}."{BETWEEN.join(sizes)}"]'
        measured, floor = (format_exact(length, self.units) for length in lengths)
        remedy = "measure again: from the run's centreline to the end of the branch"
        if kind.swings:
            remedy = f"measure it at that angle, and write setback = {{{angle:.0f} = ...}} under {table}"
        elif not on:
            remedy = f"measure it on {name} too and write that under {table}"
        return Problem(
            where=self.where,
            key=f"{_table(kind, on)}.setback",
            message=f"{measured} is under {floor}, where a square-cut end already touches the other tube "
            f"(on {name}, at {angle:.0f} degrees)",
            remedy=remedy,
        )

    def _too_near(self, kind: FittingKind, offset: float, nearest: float, sizes: Sizes) -> Problem:
        """Tell of an offset at which the tubes, or the tube and the wall, would be in each other."""
        name = BETWEEN.join(sizes)
        on = next((m.sizes for m in self.measured.of(kind.key, sizes) if m.offset is not None), ALL_SIZES)
        return Problem(
            where=self.where,
            key=f"{_table(kind, on)}.offset",
            message=f"{format_exact(offset, self.units)} is under {format_exact(nearest, self.units)}, where {name} "
            "already touches what it is held off",
            remedy="measure again, between the centrelines or from one to the wall"
            if on
            else f'measure it on {name} too and write that under [fittings.{kind.key}."{name}"]',
        )


def _table(kind: FittingKind, on: Sizes) -> str:
    return ".".join(["fittings", kind.key, *([f'"{BETWEEN.join(on)}"'] if on else [])])


def _pivot(kind: FittingKind, tubes: Mapping[str, TubeSize]) -> float:
    """Return how high an end piece's pivot is over its plate [mm]: so the tube clears the plate at any angle."""
    return max(t.outside for t in tubes.values()) / 2.0 if kind.is_end_piece and kind.swings else 0.0
