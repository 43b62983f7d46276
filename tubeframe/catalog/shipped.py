"""The shipped catalogue, read from the TOML tables beside this file."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING

from tubeframe.catalog.catalog import Catalog
from tubeframe.catalog.fitting import FittingRules
from tubeframe.catalog.hardware import Bender, Bolt, LeastRadius, Stake, radius_of
from tubeframe.catalog.kind_rows import fitting_kinds
from tubeframe.catalog.limits import limits_from
from tubeframe.catalog.material import Material
from tubeframe.catalog.stock import Stock
from tubeframe.catalog.table_file import TableFile
from tubeframe.catalog.tube import TubeSize
from tubeframe.errors import CatalogError, shown

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.catalog.table_file import Row
    from tubeframe.errors import Problem

_TABLES = ("materials", "tubes", "fittings", "bolts", "stock", "benders", "stakes", "limits")


@cache
def shipped_catalog() -> Catalog:
    """Read the shipped tables; CatalogError lists every mistake in them."""
    return catalog_from(shipped_texts())


def shipped_texts() -> dict[str, str]:
    """Return the texts of the tables, by name."""
    folder = resources.files("tubeframe.catalog")
    return {name: folder.joinpath(f"{name}.toml").read_text(encoding="utf-8") for name in _TABLES}


def catalog_from(texts: Mapping[str, str]) -> Catalog:
    """Read and check tables from their texts; CatalogError lists every mistake in all of them."""
    problems: list[Problem] = []
    files = {name: TableFile(name, text, problems) for name, text in texts.items()}
    materials = tuple(_material(row) for row in files["materials"].rows("material"))
    bolts = tuple(_bolt(row) for row in files["bolts"].rows("bolt"))
    _stop_at(problems)
    tubes = tuple(_tube(row, materials) for row in files["tubes"].rows("tube"))
    rules = _rules(files["fittings"].table("generic"), bolts)
    _stop_at(problems)
    keys = tuple(t.key for t in tubes)
    catalog = Catalog(
        materials=materials,
        tubes=tubes,
        rules=rules,
        kinds=fitting_kinds(files["fittings"].rows("kind"), rules),
        bolts=bolts,
        stocks=tuple(s for row in files["stock"].rows("stock") for s in _stocks(row, keys)),
        benders=(),
        least_radii=tuple(_least_radius(row, keys) for row in files["benders"].rows("least_radius")),
        stakes=_stakes(files["stakes"], keys),
        limits=limits_from(files["limits"].rows("limit")),
    )
    benders = tuple(_bender(row, catalog, keys) for row in files["benders"].rows("bender"))
    _stop_at(problems)
    return replace(catalog, benders=benders)


def _stop_at(problems: list[Problem]) -> None:
    if problems:
        raise CatalogError(*problems)


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
    by_key = {m.key: m for m in materials}
    made = TubeSize(
        key=row.text("key"),
        name=row.text("name"),
        designator=row.text("designator"),
        outside=row.length("outside"),
        wall=row.length("wall"),
        material=by_key[row.known("material", by_key)],
        source=row.text("source"),
    )
    if made.bore <= 0.0:
        row.wrong("wall", f"two walls of {made.wall:.2f} mm do not go into {made.outside:.2f} mm")
    row.close()
    return made


def _stocks(row: Row, tubes: tuple[str, ...]) -> Iterator[Stock]:
    length, sold = row.length("length"), row.take("tubes")
    row.text("source")
    row.close()
    if not isinstance(sold, list) or not all(t in tubes for t in sold):
        row.wrong("tubes", f"{shown(sold)} are not all tube sizes", f"known: {', '.join(tubes)}")
        return
    yield from (Stock(tube=t, length=length, usable=length) for t in sold)


def _bender(row: Row, catalog: Catalog, tubes: tuple[str, ...]) -> Bender:
    tube = catalog.tube(row.known("tube", tubes))
    take_up, radius = row.optional_length("take_up"), row.optional_length("radius")
    if (take_up is None) == (radius is None):
        row.wrong("take_up_mm", "either the take-up or the radius is needed, never both")
    made = Bender(
        tube=tube.key,
        radius=radius if radius is not None else radius_of(take_up or 0.0, tube.outside),
        take_up=take_up,
        source=row.text("source"),
    )
    row.close()
    return made


def _least_radius(row: Row, tubes: tuple[str, ...]) -> LeastRadius:
    made = LeastRadius(tube=row.known("tube", tubes), radius=row.length("radius"), source=row.text("source"))
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


def _stakes(file: TableFile, tubes: tuple[str, ...]) -> tuple[Stake, ...]:
    use = file.table("use")
    depth, inside = use.length("in_ground"), use.length("in_tube")
    pin, height = use.length("pin_diameter"), use.length("pin_height")
    use.text("source")
    use.close()
    made = []
    for row in file.rows("stake"):
        made.append(
            Stake(
                tube=row.known("tube", tubes),
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


def _rules(row: Row, bolts: tuple[Bolt, ...]) -> FittingRules:
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
        bolt=row.known("bolt", [b.key for b in bolts]),
    )
    row.text("source")
    row.close()
    return rules
