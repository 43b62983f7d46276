"""The catalogue: what is shipped, and how it is looked up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from tubeframe.catalog.fitting import FittingKind
from tubeframe.catalog.hardware import Bolt
from tubeframe.catalog.material import Material
from tubeframe.catalog.tube import TubeSize
from tubeframe.errors import CatalogError, Problem, UnknownItemError, nearest_name, shown

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.catalog.fitting import FittingRules, OnFloor
    from tubeframe.catalog.hardware import Bender, LeastRadius, Stake
    from tubeframe.catalog.limits import Limits
    from tubeframe.catalog.stock import Stock

Keyed = TypeVar("Keyed", Material, TubeSize, FittingKind, Bolt)


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalog:
    """Everything that is shipped."""

    materials: tuple[Material, ...]
    tubes: tuple[TubeSize, ...]
    rules: FittingRules
    kinds: tuple[FittingKind, ...]
    bolts: tuple[Bolt, ...]
    stocks: tuple[Stock, ...]
    benders: tuple[Bender, ...]
    least_radii: tuple[LeastRadius, ...]
    stakes: tuple[Stake, ...]
    limits: Limits

    def tube(self, key: str) -> TubeSize:
        """Return a tube size; UnknownItemError when there is none of that key."""
        return _named(self.tubes, key, "tube")

    def kind(self, key: str) -> FittingKind:
        """Return a kind of fitting; UnknownItemError when there is none of that key."""
        return _named(self.kinds, key, "fitting")

    @property
    def couplers(self) -> tuple[FittingKind, ...]:
        """The kinds in which two tubes pass each other, in the order of the table."""
        return tuple(k for k in self.kinds if k.is_coupler)

    def coupler_at(self, angle: float) -> FittingKind | None:
        """Return the plainest coupler of tubes that stand at an angle [degree]: of a fixed angle before one that turns.

        None when no coupler takes that angle.
        """
        taking = sorted((k for k in self.couplers if k.takes_angle(angle)), key=lambda k: k.swings)
        return next(iter(taking), None)

    @property
    def sleeve(self) -> FittingKind:
        """The sleeve that butts the parts of a tube longer than a stick: the first of the table."""
        return self._first((k for k in self.kinds if k.is_sleeve), "a sleeve: two branches in line")

    @property
    def tee(self) -> FittingKind:
        """The plainest kind that holds one end square on a tube that passes through."""
        return self._first((k for k in self.kinds if k.is_tee), "a run with one branch square to it")

    def end_piece(self, on_floor: OnFloor | None, *, swivels: bool = False) -> FittingKind:
        """Return the first piece of the table that stands on the floor that way, or that closes an end (None)."""
        pieces = (k for k in self.kinds if k.is_end_piece and k.on_floor is on_floor and k.swings == swivels)
        what = f"stands on the floor {on_floor.value}" if on_floor else "closes an end"
        return self._first(pieces, f"an end piece that {what}{' and swings' if swivels else ''}")

    @staticmethod
    def _first(kinds: Iterable[FittingKind], what: str) -> FittingKind:
        found = next(iter(kinds), None)
        if found is None:
            raise CatalogError(Problem(where="fittings.toml", key="kind", message=f"there is no row for {what}"))
        return found

    def material(self, key: str) -> Material:
        """Return a material; UnknownItemError when there is none of that key."""
        return _named(self.materials, key, "material")

    @property
    def bolt(self) -> Bolt:
        """The bolt of the clamps."""
        return _named(self.bolts, self.rules.bolt, "bolt")

    def least_radius(self, tube: str) -> LeastRadius | None:
        """Return the smallest radius that a tube may be bent to, where a table has it."""
        return next((r for r in self.least_radii if r.tube == tube), None)

    def stake(self, tube: str) -> Stake | None:
        """Return the stake that fits inside a tube, if one is known."""
        return next((s for s in self.stakes if s.tube == tube), None)


def _named(rows: Iterable[Keyed], key: str, what: str) -> Keyed:
    by_key = {row.key: row for row in rows}
    if key not in by_key:
        raise UnknownItemError(
            Problem(where="", key=what, message=f"{shown(key)} is not known", remedy=nearest_name(key, by_key))
        )
    return by_key[key]
