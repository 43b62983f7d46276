"""`tubeframe fittings`: the kinds with their ports drawn, and one's own fittings measured."""

from __future__ import annotations

import datetime
import tomllib
from pathlib import Path  # noqa: TC003  the command line reads the annotation
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import InputError, Problem, nearest_name
from tubeframe.geometry.units import INCH_MM, Units, format_exact, parse_length
from tubeframe.inputs.workshop_text import with_setback

if TYPE_CHECKING:
    from tubeframe.catalog.fitting import FittingKind, Port

fittings_app = typer.Typer(invoke_without_command=True, help="List the kinds of fittings, or measure your own.")
_HALF_WIDTH, _HALF_HEIGHT = 4, 2


@fittings_app.callback()
def fittings(ctx: typer.Context) -> None:
    """List all kinds of fittings with their ports drawn: = a tube that passes, - a tube that ends."""
    if ctx.invoked_subcommand is not None:
        return
    for kind in shipped_catalog().kinds:
        bolts = f"; {kind.bolts} bolt{'s' if kind.bolts > 1 else ''}" if kind.bolts else ""
        typer.echo(f"{kind.key}: {kind.about}{bolts}")
        typer.echo("\n".join(f"    {row}" for row in sketch(kind)))
    typer.echo("sizes are generic: measure yours (tubeframe fittings calibrate --help)")


@fittings_app.command()
def calibrate(
    kind: Annotated[str, typer.Argument(help="the kind of fitting, such as tee")],
    tube: Annotated[str, typer.Option(help="the tube size, such as emt-3/4")],
    offcut: Annotated[str, typer.Option(help="length of a square-cut offcut, clamped in as the branch")],
    measured: Annotated[str, typer.Option(help="from the run's far outside face to the branch's far end")],
    workshop: Annotated[Path, typer.Option(help="the workshop file that takes the result")],
    date: Annotated[str, typer.Option(help="day of the measurement, as 2026-05-01")],
) -> None:
    """Find a fitting's setback from two tape readings: s = M - D/2 - B, and write it into your workshop file."""
    text = _text(workshop)
    shop = workshop_from_document(tomllib.loads(text), str(workshop))
    setback, outside = _setback(kind, tube, (offcut, measured), shop.units)
    _check_date(date)
    value = format_exact(setback, shop.units)
    changed = with_setback(text, kind, value, f"measured {date} on {tube}")
    again = workshop_from_document(tomllib.loads(changed), str(workshop))
    found = again.catalog.kind(kind)
    again.sized(found, dict.fromkeys((p.name for p in found.ports), again.catalog.tube(tube)))
    _write(workshop, changed)
    numbers = (measured, format_exact(outside / 2.0, shop.units), offcut)
    typer.echo(f"s = M - D/2 - B = {' - '.join(numbers)} = {value}")
    typer.echo(f"written into {workshop}: [fittings.{kind}] setback")


def sketch(kind: FittingKind) -> list[str]:
    """Draw a fitting's ports: x to the right, z up, y away up to the right; a coupler's second run one line higher."""
    grid = [[" "] * (2 * _HALF_WIDTH + 1) for _ in range(2 * _HALF_HEIGHT + 1)]
    for port in kind.ports:
        for sign in (1, -1) if port.role is PortRole.RUN else (1,):
            _draw(grid, port, sign)
    grid[_HALF_HEIGHT][_HALF_WIDTH] = "o"
    return [row for line in grid if (row := "".join(line).rstrip())]


def _draw(grid: list[list[str]], port: Port, sign: int) -> None:
    x, y, z = (sign * round(v, 3) for v in port.axis)
    right = (x > 0.1) - (x < -0.1) + (y > 0.1) - (y < -0.1)
    up = (z > 0.1) - (z < -0.1) + (y > 0.1) - (y < -0.1)
    runs = port.role is PortRole.RUN
    flat = "=" if runs else "-"
    stroke = flat if not up else ("‖" if runs else "|") if not right else "/" if right == up else "\\"
    lift = 1 if port.lifted else 0
    steps = _HALF_WIDTH if not up else _HALF_HEIGHT
    for k in range(0 if lift else 1, steps + 1):
        row, column = _HALF_HEIGHT - k * up - lift, _HALF_WIDTH + k * right
        if 0 <= row < len(grid):
            grid[row][column] = stroke


def _setback(kind: str, tube: str, readings: tuple[str, str], units: Units) -> tuple[float, float]:
    """Return setback and outside diameter [mm]; InputError with all that is wrong."""
    catalog = shipped_catalog()
    kinds = [
        k.key for k in catalog.kinds if any(p.role is PortRole.RUN for p in k.ports) and k.ports_of(PortRole.BRANCH)
    ]
    tubes = [t.key for t in catalog.tubes]
    problems = []
    if kind not in kinds:
        problems.append(
            Problem(where="", key=kind, message="no such kind with a branch", remedy=nearest_name(kind, kinds))
        )
    if tube not in tubes:
        problems.append(
            Problem(where="", key="--tube", message=f"'{tube}' is not known", remedy=nearest_name(tube, tubes))
        )
    lengths = []
    for option, reading in zip(("--offcut", "--measured"), readings, strict=True):
        try:
            lengths.append(parse_length(reading, units))
        except ValueError as error:
            problems.append(Problem(where="", key=option, message=str(error)))
    if problems:
        raise InputError(*problems)
    outside = catalog.tube(tube).outside
    setback = lengths[1] - outside / 2.0 - lengths[0]
    if not 0.0 < setback < 6.0 * INCH_MM:
        shown = format_exact(setback, units)
        raise InputError(
            Problem(
                where="",
                key="--measured",
                message=f"gives a setback of {shown}, which cannot be",
                remedy="read from the run's FAR face to the branch's far end",
            )
        )
    return setback, outside


def _check_date(date: str) -> None:
    try:
        datetime.date.fromisoformat(date)
    except ValueError as error:
        problem = Problem(where="", key="--date", message=f"'{date}' is not a day", remedy="write 2026-05-01")
        raise InputError(problem) from error


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        problem = Problem(
            where=str(path), key="", message=f"it cannot be read: {error}", remedy=f"run: tubeframe workshop new {path}"
        )
        raise InputError(problem) from error


def _write(path: Path, text: str) -> None:
    try:
        path.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise InputError(Problem(where=str(path), key="", message=f"it cannot be written: {error.strerror}")) from error
