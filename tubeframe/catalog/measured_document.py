"""What was measured on fittings, from the tables of a workshop file."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.measurable import counted_angle, swings_at
from tubeframe.catalog.measured import ALL_SIZES, BETWEEN, Measured, Measures, sizes_of
from tubeframe.catalog.sizing import Sizing
from tubeframe.errors import CatalogError, nearest_name
from tubeframe.geometry.tolerance import ANGLE_DEG

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.catalog.user_table import UserTable


_DEGREES = re.compile(r"[0-9]{1,3}(\.[0-9]{1,9})?")
_MOST = 1000.0
"""No fitting is larger [mm]."""


def measures(table: UserTable, catalog: Catalog) -> Measures:
    """Read the table `fittings`: a table a kind, and in it one a size where sizes differ."""
    fittings = table.inner("fittings")
    known = [k.key for k in catalog.kinds]
    rows: list[Measured] = []
    for key in fittings.names():
        if key in known:
            rows += _of_kind(fittings.inner(key), catalog.kind(key), catalog)
        else:
            fittings.take(key)
            fittings.wrong(key, "there is no such kind of fitting", nearest_name(key, known))
    return Measures(rows=tuple(rows))


def keys_of(kind: FittingKind) -> tuple[str, ...]:
    """List what can be measured of a kind, by its ports."""
    has_run, has_branch = (bool(kind.ports_of(r)) for r in (PortRole.RUN, PortRole.BRANCH))
    clamps = ("slip_force", "twist_moment") if not kind.is_end_piece else ()
    return (
        *(("setback",) if has_branch else ()),
        *(("grip",) if has_run else ()),
        *(("branch_grip",) if has_branch and not kind.is_sleeve else ()),
        *(("offset",) if kind.is_coupler or kind.wall else ()),
        *(("length",) if kind.is_sleeve else ()),
        *(("thickness",) if kind.is_end_piece else ()),
        *clamps,
        *(("bolt_torque",) if kind.bolts else ()),
        "price",
        "on_hand",
    )


def _of_kind(row: UserTable, kind: FittingKind, catalog: Catalog) -> Iterator[Measured]:
    """Give what holds for every size, then size by size."""
    sized = [key for key in row.tables() if key != "setback"]
    inner = [(key, row.inner(key)) for key in sized]
    yield _measured(row, kind, ALL_SIZES)
    for key, table in inner:
        tubes = _tubes(key, kind, catalog)
        if tubes is None:
            row.wrong(key, *_no_size(key, kind, catalog))
            continue
        made = _measured(table, kind, sizes_of(kind, tubes))
        _check(made, kind, tubes, catalog, table)
        yield made


def _tubes(name: str, kind: FittingKind, catalog: Catalog) -> dict[str, TubeSize] | None:
    """Return the tube in each port: of one size, or of the run's size and then the branches'; None when it is none."""
    by_key = {t.key: t for t in catalog.tubes}
    parts = [part.strip() for part in name.split(BETWEEN)]
    ports = [p for role in PortRole for p in kind.ports_of(role)]
    roles = list(dict.fromkeys(p.role for p in ports))
    if any(part not in by_key for part in parts):
        return None
    if len(parts) == 1:
        return {p.name: by_key[parts[0]] for p in ports}
    if len(parts) == len(roles):
        return {p.name: by_key[parts[roles.index(p.role)]] for p in ports}
    if len(parts) == len(ports):
        return {p.name: by_key[part] for p, part in zip(ports, parts, strict=True)}
    return None


def _no_size(name: str, kind: FittingKind, catalog: Catalog) -> tuple[str, str]:
    keys = [t.key for t in catalog.tubes]
    quoted = next((k for k in keys if k.startswith(f"{name}.")), None)
    if quoted:
        return "the name of this size has a point in it", f'write it in quotes: [fittings.{kind.key}."{quoted}"]'
    return f"this is neither a key ({', '.join(keys_of(kind))}) nor a tube size", nearest_name(name, keys)


def _measured(row: UserTable, kind: FittingKind, sizes: tuple[str, ...]) -> Measured:
    known = keys_of(kind)
    for key in row.names():
        if key not in known and key in Measured.__slots__:
            row.take(key)
            row.wrong(key, f"this says nothing of a {kind.key}", f"what does: {', '.join(known)}")
    setback = row.take("setback") if "setback" in known else None
    by_angle = setback if isinstance(setback, dict) else None
    made = Measured(
        kind=kind.key,
        sizes=sizes,
        setback=row.as_length("setback", setback, _MOST) if by_angle is None else None,
        setback_by_angle=_by_angle(row, by_angle or {}, kind),
        grip=_held(row, "grip"),
        branch_grip=_held(row, "branch_grip"),
        offset=_held(row, "offset"),
        length=_held(row, "length"),
        thickness=row.length("thickness", _MOST),
        slip_force=_over_0(row, "slip_force", row.load("slip_force")),
        twist_moment=_over_0(row, "twist_moment", row.moment("twist_moment")),
        bolt_torque=_over_0(row, "bolt_torque", row.moment("bolt_torque")),
        price=row.price("price"),
        on_hand=row.optional_count("on_hand"),
    )
    row.close()
    return made


def _held(row: UserTable, key: str) -> float | None:
    return _over_0(row, key, row.length(key, _MOST))


def _over_0(row: UserTable, key: str, value: float | None) -> float | None:
    if value == 0.0:
        row.wrong(key, "0 would hold nothing", "measure it, or leave it out")
        return None
    return value


def _by_angle(row: UserTable, table: Mapping[str, object], kind: FittingKind) -> tuple[tuple[float, float], ...]:
    """Read setbacks by the port's angle; beside a run 60 and 120 degrees are one."""
    spans = [kind.angles_of(p) for p in kind.ports_of(PortRole.BRANCH)]
    found: dict[float, float] = {}
    for text, value in table.items():
        key = f"setback.{text}"
        if isinstance(value, dict):
            row.wrong(key, "an angle with a point has to stand in quotes", "write for example {\"22.5\" = '2 in'}")
            continue
        length = row.as_length(key, value, _MOST)
        if not _DEGREES.fullmatch(text):
            row.wrong(key, "an angle in degrees is needed", "write for example setback = {45 = '1.5 in'}")
            continue
        angle = counted_angle(kind, float(text))
        if not any(low - ANGLE_DEG <= angle <= high + ANGLE_DEG for low, high in spans):
            row.wrong(key, f"no end stands at {text} degrees in a {kind.key}", f"its ends: {_shown(spans)} degrees")
        elif angle in found:
            row.wrong(key, f"{angle:g} degrees is there twice, from either side", "leave one of them out")
        elif length is not None:
            found[angle] = length
    return tuple(sorted(found.items()))


def _shown(spans: list[tuple[float, float]]) -> str:
    return ", ".join(dict.fromkeys(f"{a:.0f} to {b:.0f}" if b - a > ANGLE_DEG else f"{a:.0f}" for a, b in spans))


def _check(made: Measured, kind: FittingKind, tubes: Mapping[str, TubeSize], catalog: Catalog, row: UserTable) -> None:
    """Hold what was measured on a size against what its tubes leave room for."""
    sizing = Sizing(rules=catalog.rules, measured=Measures(rows=(made,)), units=row.units)
    for angle in swings_at(kind, [a for a, _ in made.setback_by_angle]):
        try:
            sizing.sized(kind, tubes, angle)
        except CatalogError as error:
            for problem in error.problems:
                row.wrong(problem.key.rpartition(".")[2], problem.message, problem.remedy)
