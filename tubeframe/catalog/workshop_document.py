"""A workshop from plain values, as the user's file holds them, merged over the shipped tables."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.bender_document import benders
from tubeframe.catalog.conditions import Conditions
from tubeframe.catalog.drafting import Drafting, DxfRelease, HiddenLines, Projection
from tubeframe.catalog.limits import own_limits
from tubeframe.catalog.measured_document import measures
from tubeframe.catalog.ranges import PRESSURE, SPEED
from tubeframe.catalog.saw import Saw
from tubeframe.catalog.stock import Stock
from tubeframe.catalog.user_table import UserTable
from tubeframe.catalog.workshop import Arcs, Bolts, Paper, Prefer, Workshop, generic_workshop
from tubeframe.errors import InputError, Problem, Problems, nearest_name, shown
from tubeframe.geometry.units import FOOT_MM, Units, format_range, parse_length, parse_pressure, parse_speed

if TYPE_CHECKING:
    from collections.abc import Mapping
    from enum import StrEnum

_CODE = re.compile(r"[A-Z]{3}")
_MOST_KERF, _MOST_GRIP = 25.4, 1000.0
"""What a saw takes, and what it or a hand needs [mm]."""
_LEAST_TABLE, _MOST_TABLE = 2.0 * FOOT_MM, 60.0 * FOOT_MM
"""Sides of a table [mm]: on a smaller one there is no room beside what is written on a part."""
_TABLE_EXAMPLES = "write for example 4ftx8ft, 48inx96in or 1200mmx2400mm"


def workshop_from_document(document: Mapping[str, object], where: str) -> Workshop:
    """Merge a workshop table over the shipped ones.

    Raises:
        InputError: with every unknown key and wrong value, each with its place.

    """
    problems = Problems()
    units = _units(document, where, problems)
    generic = generic_workshop(units)
    table = UserTable(where, {k: v for k, v in document.items() if k != "units"}, problems, units)
    workshop = _workshop(table, generic)
    table.take("units")
    table.close()
    if problems:
        raise InputError(*problems)
    return replace(workshop, where=where)


def _units(document: Mapping[str, object], where: str, problems: list[Problem]) -> Units:
    given = document.get("units", Units.INCH.value)
    known = [u.value for u in Units]
    if isinstance(given, str) and given in known:
        return Units(given)
    problems.append(
        Problem(where=where, key="units", message=f"{shown(given)} is not known", remedy=nearest_name(given, known))
    )
    return Units.INCH


def _workshop(table: UserTable, generic: Workshop) -> Workshop:
    catalog = generic.catalog
    tubes = tuple(t.key for t in catalog.tubes)
    paper = table.one_of("paper", tuple(p.value for p in Paper), generic.paper.value)
    currency = table.take("currency")
    if currency is not None and not (isinstance(currency, str) and _CODE.fullmatch(currency)):
        table.wrong("currency", f"{shown(currency)} is not a three-letter code", "write for example 'USD' or 'EUR'")
    saw, clearance = table.inner("saw"), table.inner("clearance")
    kerf, grip = saw.length("kerf", _MOST_KERF), saw.length("grip", _MOST_GRIP)
    gap = clearance.length("tool_gap", _MOST_GRIP)
    saw.close()
    clearance.close()
    return Workshop(
        catalog=catalog,
        units=generic.units,
        paper=Paper(paper),
        currency=None if currency is None else str(currency),
        tube=table.one_of("tube", tubes, generic.tube),
        saw=Saw(kerf=kerf or 0.0, grip=grip or 0.0),
        carry_length=_over_0(table, "carry_length"),
        layout_table=_layout_table(table),
        stocks=_stocks(table, tubes, generic),
        measured=measures(table, catalog),
        benders=benders(table, catalog),
        tool_gap=generic.tool_gap if gap is None else gap,
        drafting=_drafting(table, generic.drafting),
        limits=own_limits(table, catalog.limits),
        prefer=Prefer(table.one_of("prefer", tuple(p.value for p in Prefer), generic.prefer.value)),
        conditions=_conditions(table),
        bolts=Bolts(table.one_of("bolts", tuple(b.value for b in Bolts), generic.bolts.value)),
        arcs=Arcs(table.one_of("arcs", tuple(a.value for a in Arcs), generic.arcs.value)),
    )


def _conditions(table: UserTable) -> Conditions:
    """Read what a frame has to carry, and what wind, snow and anchors are in the person's own place."""
    return Conditions(
        load=table.load("load"),
        wind=table.read("wind", parse_speed, SPEED),
        snow=table.read("snow", parse_pressure, PRESSURE),
        anchor=table.load("pull_out"),
    )


def _over_0(table: UserTable, key: str) -> float | None:
    """Take a length that is not 0 [mm]."""
    length = table.length(key)
    if length == 0.0:
        table.wrong(key, "0 is no length for this", "leave it out where there is no limit")
        return None
    return length


def _drafting(table: UserTable, generic: Drafting) -> Drafting:
    def chosen(key: str, known: type[StrEnum], value: StrEnum) -> str:
        return table.one_of(key, tuple(k.value for k in known), value.value)

    return Drafting(
        projection=Projection(chosen("projection", Projection, generic.projection)),
        hidden_lines=HiddenLines(chosen("hidden_lines", HiddenLines, generic.hidden_lines)),
        dxf=DxfRelease(chosen("dxf", DxfRelease, generic.dxf)),
    )


def _layout_table(table: UserTable) -> tuple[float, float] | None:
    """Read length x width of the table that full-size drawings are laid on [mm]."""
    value = table.take("table")
    if value is None:
        return None
    parts = [p.strip() for p in re.split("[x×]", value.lower())] if isinstance(value, str) else []
    if len(parts) != 2 or not all(parts):
        table.wrong("table", f"{shown(value)} is not the length and width of a table", _TABLE_EXAMPLES)
        return None
    try:
        length, width = (parse_length(p, table.units) for p in parts)
    except ValueError as error:
        table.wrong("table", str(error), _TABLE_EXAMPLES)
        return None
    if not all(_LEAST_TABLE <= side <= _MOST_TABLE for side in (length, width)):
        least, most = (format_range(side, table.units) for side in (_LEAST_TABLE, _MOST_TABLE))
        table.wrong("table", f"{shown(value)} is out of range; each side is {least} to {most}", _TABLE_EXAMPLES)
        return None
    return length, width


def _stocks(table: UserTable, tubes: tuple[str, ...], generic: Workshop) -> tuple[Stock, ...]:
    """Read the user's sticks; bought ones of a tube replace the shipped ones of that tube."""
    own = tuple(s for row in table.inner_rows("stock") if (s := _stock(row, tubes)))
    replaced = {s.tube for s in own if s.bought}
    return own + tuple(s for s in generic.stocks if s.tube not in replaced)


def _stock(row: UserTable, tubes: tuple[str, ...]) -> Stock | None:
    stated = "tube" in row.names()
    tube, length, usable = row.one_of("tube", tubes, ""), row.length("length"), _over_0(row, "usable")
    price, on_hand = row.price("price"), row.optional_count("on_hand")
    row.close()
    if not stated:
        row.wrong("tube", "which tube?", f"one of {', '.join(tubes)}")
    if not length:
        row.wrong("length", "a stick needs a length", "write for example length = '10 ft'")
    if length and usable and usable > length:
        row.wrong("usable", f"{usable:.1f} mm is longer than the stick ({length:.1f} mm)")
    if not tube or not length:
        return None
    return Stock(tube=tube, length=length, usable=usable or length, price=price, on_hand=on_hand)
