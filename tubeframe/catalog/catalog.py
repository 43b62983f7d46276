"""The shipped catalogue, read from the TOML tables beside this file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, TypeVar

from tubeframe.catalog.fitting import Ear, FittingKind, FittingRules, OnFloor, Port, PortRole
from tubeframe.catalog.hardware import Bender, Bolt, Stake
from tubeframe.catalog.material import Material
from tubeframe.catalog.rows import Row, raise_all, shipped_table
from tubeframe.catalog.stock import Stock
from tubeframe.catalog.tube import TubeSize
from tubeframe.errors import CatalogError, Problem, UnknownItemError, nearest_name
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterable


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
    stakes: tuple[Stake, ...]

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

    def end_piece(self, on_floor: OnFloor | None) -> FittingKind:
        """Return the first piece of the table that stands on the floor that way, or that closes an end (None)."""
        pieces = (k for k in self.kinds if k.is_end_piece and k.on_floor is on_floor)
        return self._first(pieces, f"an end piece that {f'stands {on_floor.value}' if on_floor else 'closes an end'}")

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

    def stake(self, tube: str) -> Stake | None:
        """Return the stake that fits inside a tube, if one is known."""
        return next((s for s in self.stakes if s.tube == tube), None)


@cache
def shipped_catalog() -> Catalog:
    """Read and check the shipped tables; CatalogError lists every mistake in them."""
    problems: list[Problem] = []
    materials = tuple(_material(row) for row in _rows("materials", "material", problems))
    fittings = shipped_table("fittings")
    rules = _rules(Row("fittings", fittings["generic"], problems))
    catalog = Catalog(
        materials=materials,
        tubes=tuple(_tube(row, materials) for row in _rows("tubes", "tube", problems)),
        rules=rules,
        kinds=tuple(_kind(Row("fittings", data, problems), rules) for data in fittings["kind"]),
        bolts=tuple(_bolt(row) for row in _rows("bolts", "bolt", problems)),
        stocks=tuple(s for row in _rows("stock", "stock", problems) for s in _stocks(row)),
        benders=(),
        stakes=_stakes(problems),
    )
    benders = tuple(_bender(row, catalog) for row in _rows("benders", "bender", problems))
    raise_all(problems)
    return Catalog(
        **{name: getattr(catalog, name) for name in catalog.__slots__ if name != "benders"},
        benders=benders,
    )


def _named(rows: Iterable[Keyed], key: str, what: str) -> Keyed:
    by_key = {row.key: row for row in rows}
    if key not in by_key:
        raise UnknownItemError(
            Problem(where="", key=what, message=f"'{key}' is not known", remedy=nearest_name(key, by_key))
        )
    return by_key[key]


def _rows(table: str, name: str, problems: list[Problem]) -> list[Row]:
    return [Row(table, data, problems) for data in shipped_table(table)[name]]


def _material(row: Row) -> Material:
    made = Material(
        key=row.text("key"),
        name=row.text("name"),
        density=row.number("density_kg_per_m3"),
        source=row.text("source"),
    )
    row.close()
    return made


def _tube(row: Row, materials: tuple[Material, ...]) -> TubeSize:
    made = TubeSize(
        key=row.text("key"),
        name=row.text("name"),
        designator=row.text("designator"),
        outside=row.length("outside"),
        wall=row.length("wall"),
        material=_named(materials, row.text("material"), "material"),
        source=row.text("source"),
    )
    row.close()
    return made


def _stocks(row: Row) -> list[Stock]:
    length, tubes = row.length("length"), row.take("tubes")
    row.text("source")
    row.close()
    return [Stock(tube=t, length=length, usable=length) for t in tubes]


def _bender(row: Row, catalog: Catalog) -> Bender:
    tube = catalog.tube(row.text("tube"))
    take_up, radius = row.optional_length("take_up"), row.optional_length("radius")
    made = Bender(
        tube=tube.key,
        radius=radius if radius is not None else (take_up or 0.0) - tube.outside / 2.0,
        take_up=take_up,
        source=row.text("source"),
    )
    row.close()
    return made


def _bolt(row: Row) -> Bolt:
    made = Bolt(
        key=row.text("key"),
        name=row.text("name"),
        hex_key=row.length("key"),
        head_height=row.length("head_height"),
        source=row.text("source"),
    )
    row.close()
    return made


def _stakes(problems: list[Problem]) -> tuple[Stake, ...]:
    use = Row("stakes", shipped_table("stakes")["use"], problems)
    depth, inside = use.length("in_ground"), use.length("in_tube")
    pin, height = use.length("pin_diameter"), use.length("pin_height")
    use.text("source")
    use.close()
    made = []
    for row in _rows("stakes", "stake", problems):
        made.append(
            Stake(
                tube=row.text("tube"),
                rod=row.text("rod"),
                diameter=row.length("rod"),
                in_ground=depth,
                in_tube=inside,
                pin_diameter=pin,
                pin_height=height,
                source=row.text("source"),
            )
        )
        row.close()
    return tuple(made)


def _rules(row: Row) -> FittingRules:
    rules = FittingRules(
        setback_over_floor=row.length("setback_over_floor"),
        grip_diameters=row.number("grip_diameters"),
        grip_step=row.length("grip_step"),
        branch_grip_diameters=row.number("branch_grip_diameters"),
        coupler_gap=row.length("coupler_gap"),
        sleeve_diameters=row.number("sleeve_diameters"),
        shell=row.length("shell"),
        ears=row.length("ears"),
        end_thickness=row.length("end_thickness"),
        end_skirt=row.length("end_skirt"),
        end_shell=row.length("end_shell"),
        tool_gap=row.length("tool_gap"),
        end_overhang=row.length("end_overhang"),
        bolt=row.text("bolt"),
    )
    row.close()
    return rules


def _kind(row: Row, rules: FittingRules) -> FittingKind:
    ears = tuple(Ear(port=port, toward=Vec(*map(float, toward))) for port, toward in row.take("ears"))
    made = FittingKind(
        key=row.text("key"),
        about=row.text("about"),
        ports=tuple(_port(data) for data in row.take("ports")),
        ears=ears,
        bolts=int(row.number("bolts", default=len(ears))),
        setback_over_floor=row.length("setback_over_floor", default=rules.setback_over_floor),
        shell=row.length("shell", default=rules.shell),
        skirt=row.length("end_skirt", default=rules.end_skirt),
        plate_diameters=row.number("plate_diameters", default=0.0),
        on_floor=OnFloor(stands) if (stands := row.text("on_floor", default="")) else None,
    )
    row.close()
    return made


def _port(data: dict[str, Any]) -> Port:
    axis, up = Vec(*map(float, data["axis"])), Vec(*map(float, data["up"]))
    if abs(axis.length - 1.0) > TINY or abs(up.length - 1.0) > TINY:
        problem = Problem(where="fittings.toml", key=data["name"], message="`axis` and `up` must be one long")
        raise UnknownItemError(problem)
    swing = data.get("swing_deg")
    return Port(
        name=data["name"],
        role=PortRole(data["role"]),
        axis=axis,
        up=up,
        lifted=bool(data.get("lift", 0)),
        swing=(float(swing[0]), float(swing[1])) if swing else None,
    )
