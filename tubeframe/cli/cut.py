"""`tubeframe cut`: a stick plan for any list of pieces, with no frame."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path  # noqa: TC003 (typer reads the annotations)
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.catalog.saw import Saw
from tubeframe.cli.say import say, say_document
from tubeframe.errors import InputError, Problem, nearest_name, shown
from tubeframe.fabrication.cutting.document import cut_plan_document
from tubeframe.fabrication.cutting.findings import plan_findings
from tubeframe.fabrication.cutting.plan import Need, joined_plan
from tubeframe.geometry.units import Units, format_exact, parse_length
from tubeframe.inputs.cut_list import NO_TUBE, read_cut_list
from tubeframe.inputs.stick_options import SticksAsked, sticks_for
from tubeframe.words.cut_plan import plan_lines
from tubeframe.words.findings import told

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.stock import Stock
    from tubeframe.fabrication.cutting.plan import CutPlan
    from tubeframe.inputs.cut_list import ListedPiece


def cut(
    pieces: Annotated[Path, typer.Argument(help="a CSV file with the columns mark, length, quantity, and maybe tube")],
    stock: Annotated[
        list[str] | None, typer.Option("--stock", help="a stick to buy: 10ft@9.50, 10ft, or emt-1:10ft@14; repeat it")
    ] = None,
    on_hand: Annotated[
        list[str] | None, typer.Option("--on-hand", help="a piece that lies there, at no cost: 44.2in or 44.2inx3")
    ] = None,
    usable: Annotated[
        list[str] | None, typer.Option("--usable", help="what can be cut from the shortest --stock that is as long")
    ] = None,
    kerf: Annotated[str, typer.Option("--kerf", help="what the saw takes for each cut")] = "0",
    grip: Annotated[str, typer.Option("--grip", help="what the saw must hold of a stick's end and cannot cut")] = "0",
    carry: Annotated[
        str | None, typer.Option("--carry-length", help="the longest thing that fits the car: the shop cuts the rest")
    ] = None,
    units: Annotated[
        str, typer.Option("--units", help="in or mm: what a bare number means, and what is printed")
    ] = "in",
    currency: Annotated[str | None, typer.Option("--currency", help="a code such as USD")] = None,
    time_limit: Annotated[
        float | None,
        typer.Option("--time-limit", help="search so many seconds at most; without it a fixed amount of work"),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="print the plan as design.json has it")] = False,
) -> None:
    """Plan which piece is cut from which stick, at the least cost, proved."""
    problems: list[Problem] = []
    known = _units(units, problems)
    saw = Saw(kerf=_length("--kerf", kerf, known, problems), grip=_length("--grip", grip, known, problems))
    if time_limit is not None and not 0.0 < time_limit <= 1e6:
        problems.append(
            Problem(where="", key="--time-limit", message=f"{time_limit:g} s is no time", remedy="write 20")
        )
    listed = read_cut_list(pieces, known, problems)
    tubes = list(dict.fromkeys(p.tube for p in listed)) or [NO_TUBE]
    asked = SticksAsked(stock=stock or (), on_hand=on_hand or (), usable=usable or ())
    sticks = sticks_for(asked, tubes, known, problems)
    if sticks:
        problems += _too_long(listed, sticks, saw, pieces, known)
    car = None if carry is None else _length("--carry-length", carry, known, problems)
    if car == 0.0 and not problems:
        problems.append(
            Problem(where="", key="--carry-length", message="nothing fits that", remedy="write for example 8ft")
        )
    if problems:
        raise InputError(*problems)
    plan = _planned(listed, sticks, Wish(saw=saw, currency=currency, seconds=time_limit, carry=car, units=known))
    if as_json:
        say_document(cut_plan_document(plan))
    else:
        words = (told(f, known) for f in plan_findings(plan, car, {t: t for t in tubes}))
        notes = (f"{w.where}: {w.message}; {w.remedy}" for w in words)
        say(*plan_lines(plan, known), *notes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is asked of the plan beside pieces and sticks; times in [s], lengths in [mm]."""

    saw: Saw
    currency: str | None
    seconds: float | None
    carry: float | None
    units: Units


def _planned(listed: Sequence[ListedPiece], sticks: Sequence[Stock], wish: Wish) -> CutPlan:
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.planning import plan_cuts  # it loads the solver

    effort = Effort() if wish.seconds is None else Effort.of_time(wish.seconds)
    tubes = list(dict.fromkeys(p.tube for p in listed))
    plans = []
    for n, tube in enumerate(tubes):
        needs = [Need(mark=p.mark, length=p.length, quantity=p.quantity) for p in listed if p.tube == tube]
        own = [s for s in sticks if s.tube == tube]
        share = effort.part(1.0 / (len(tubes) - n), of_time=True)
        plans.append(
            plan_cuts(
                needs, own, saw=wish.saw, currency=wish.currency, effort=share, carry=wish.carry, units=wish.units
            )
        )
    return joined_plan(plans)


def _units(text: str, problems: list[Problem]) -> Units:
    names = [u.value for u in Units]
    if text in names:
        return Units(text)
    problems.append(
        Problem(where="", key="--units", message=f"{shown(text)} is not known", remedy=nearest_name(text, names))
    )
    return Units.INCH


def _length(key: str, text: str, units: Units, problems: list[Problem]) -> float:
    try:
        length = parse_length(text, units)
    except ValueError as error:
        problems.append(Problem(where="", key=key, message=str(error)))
        return 0.0
    if length < 0.0:
        problems.append(Problem(where="", key=key, message=f"{shown(text)} is less than nothing"))
    return length


def _too_long(
    listed: Sequence[ListedPiece], sticks: Sequence[Stock], saw: Saw, path: Path, units: Units
) -> Iterator[Problem]:
    for piece in listed:
        longest = max((s.usable for s in sticks if s.tube == piece.tube), default=0.0)
        if not saw.gets(piece.length, longest):
            yield Problem(
                where=f"{path}, line {piece.line}",
                key=piece.mark,
                message=f"{format_exact(piece.length, units)} comes out of no stick; the longest gives "
                f"{format_exact(max(0.0, longest - saw.lost), units)}",
                remedy="give a longer --stock",
            )
