"""Kinds of fittings from their rows: ports that can be, and ears that sit on them."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import Ear, FittingKind, OnFloor, Port, PortRole, sharp
from tubeframe.errors import shown
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import X, angle_deg

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from tubeframe.catalog.fitting import FittingRules
    from tubeframe.catalog.table_file import Row

_LEAST_ANGLE = 15.0
"""Tubes at a sharper angle have no room for two clamps [degree]. Common practice, no source."""


def fitting_kinds(rows: Iterable[Row], rules: FittingRules) -> tuple[FittingKind, ...]:
    """Read all kinds; what is wrong with a row goes to its problems."""
    return tuple(made for row in rows if (made := _kind(row, rules)) is not None)


def _kind(row: Row, rules: FittingRules) -> FittingKind | None:
    ports = tuple(_ports(row.rows("ports")))
    ears = tuple(_ears(row, ports))
    bolts = row.optional_count("bolts")
    stands = row.known("on_floor", [f.value for f in OnFloor], default="none")
    made = FittingKind(
        key=row.text("key"),
        about=row.text("about"),
        ports=ports,
        ears=ears,
        bolts=len(ears) if bolts is None else bolts,
        setback_over_floor=row.length("setback_over_floor", default=rules.setback_over_floor),
        shell=row.length("shell", default=rules.shell),
        skirt=row.length("end_skirt", default=rules.end_skirt),
        thickness=row.length("end_thickness", default=rules.end_thickness),
        plate_diameters=row.number("plate_diameters", default=0.0),
        inside=row.flag("inside"),
        wall=row.optional_unit_vector("wall"),
        wall_diameters=row.number("wall_diameters", default=0.0),
        on_floor=None if stands == "none" else OnFloor(stands),
        source=row.text("source"),
    )
    row.close()
    if ports and _hangs_together(row, made):
        _check_angles(row, made)
    return made if ports else None


def _ports(rows: Sequence[Row]) -> Iterator[Port]:
    seen: list[str] = []
    for row in rows:
        name, role = row.text("name"), row.known("role", [r.value for r in PortRole])
        axis, up = row.unit_vector("axis"), row.unit_vector("up")
        lifted, loose, swing = row.flag("lift"), row.flag("loose"), _swing(row)
        row.close()
        if name in seen:
            row.wrong("name", f"{shown(name)} is there twice")
        seen.append(name)
        if axis is None or up is None:
            continue
        if axis.cross(up).length < TINY:
            row.wrong("up", "it lies along the axis", "let it point to the side")
        yield Port(name=name, role=PortRole(role), axis=axis, up=up, lifted=lifted, loose=loose, swing=swing)


def _swing(row: Row) -> tuple[float, float] | None:
    value = row.take("swing_deg")
    if value is None:
        return None
    if isinstance(value, list) and len(value) == 2 and all(isinstance(v, int | float) for v in value):
        low, high = map(float, value)
        if 0.0 <= low < high <= 180.0:
            return (low, high)
    row.wrong("swing_deg", f"two angles from 0 to 180 are needed, the smaller one first; not {shown(value)}")
    return None


def _ears(row: Row, ports: Sequence[Port]) -> Iterator[Ear]:
    value = row.take("ears")
    if not isinstance(value, list):
        row.wrong("ears", "a list is needed, empty when it has none" if value is not None else "it is missing")
        return
    by_name = {p.name: p for p in ports}
    for n, ear in enumerate(value, start=1):
        key = f"ears[{n}]"
        if not isinstance(ear, list) or len(ear) != 2:
            row.wrong(key, f"a port's name and a direction are needed, not {shown(ear)}")
            continue
        name, toward = ear[0], row.unit_vector(key, ear[1])
        if not isinstance(name, str) or name not in by_name:
            row.wrong(key, f"there is no port {shown(name)}", f"ports: {', '.join(by_name)}")
        elif toward is not None and toward.across(by_name[name].axis).length < TINY:
            row.wrong(key, f"it sticks out along the axis of {name}", "let it point to the side")
        elif toward is not None:
            yield Ear(port=name, toward=toward)


def _hangs_together(row: Row, kind: FittingKind) -> bool:
    """Tell whether the ports make one fitting: an end piece is alone, a coupler has two runs, one port turns."""
    runs, swings = kind.ports_of(PortRole.RUN), [p for p in kind.ports if p.swing]
    alone = len(kind.ports) == 1
    if kind.on_floor and not kind.is_end_piece:
        row.wrong("on_floor", "only a fitting with a port of role end stands on the floor")
    if kind.inside and not kind.is_sleeve:
        row.wrong("inside", "only a sleeve of two branches in line goes into its tubes")
    if kind.wall and not (alone and runs and abs(kind.wall.dot(runs[0].axis)) <= TINY):
        row.wrong("wall", "only a fitting of one run stands on a wall, square to its tube")
    rules = {
        "a port of role end is the only one of its fitting": alone or not kind.is_end_piece,
        "a branch needs another port to be held to": not alone or not kind.ports_of(PortRole.BRANCH),
        "only a run turns loose in its port": all(p.role is PortRole.RUN for p in kind.ports if p.loose),
        "two runs through one point: `lift` one of them": len(runs) < 2 or kind.is_coupler,
        "a `lift` is for the second of two runs that lie across z": not kind.is_coupler or _is_lifted_right(kind),
        "one port at most swings: square to x, from another one, which lies along x": not swings
        or (len(swings) == 1 and _swings_from_x(kind, swings[0])),
    }
    wrong = [message for message, holds in rules.items() if not holds]
    for message in wrong:
        row.wrong("ports", message)
    return not wrong


def _is_lifted_right(kind: FittingKind) -> bool:
    first, *others = kind.ports
    roles = {p.role for p in kind.ports}
    return len(others) == 1 and roles == {PortRole.RUN} and not first.lifted and not others[0].axis.z


def _swings_from_x(kind: FittingKind, port: Port) -> bool:
    others = [p for p in kind.ports if p is not port]
    return abs(port.axis.dot(X)) < TINY and (not others or any(p.axis.distance(X) < TINY for p in others))


def _check_angles(row: Row, kind: FittingKind) -> None:
    """Tell of ports that leave each other no room, however the one that turns is turned."""
    for a, b in combinations(kind.ports, 2):
        if a.lifted or b.lifted:
            continue
        for swing in next((p.swing for p in kind.ports if p.swing), (None,)):
            angle = angle_deg(a.axis_at(swing), b.axis_at(swing))
            beside_run = PortRole.RUN in (a.role, b.role)
            least = sharp(angle) if beside_run else angle
            if least < _LEAST_ANGLE:
                row.wrong("ports", f"{a.name} and {b.name} stand at {least:.0f} degrees: at least {_LEAST_ANGLE:.0f}")
