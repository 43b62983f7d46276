"""`tubeframe fittings`: the kinds with their ports drawn, and one's own fittings measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.cli.calibrate import calibrate
from tubeframe.cli.say import say

if TYPE_CHECKING:
    from tubeframe.catalog.fitting import FittingKind, Port

fittings_app = typer.Typer(invoke_without_command=True, help="List the kinds of fittings, or measure your own.")
fittings_app.command()(calibrate)
_HALF_WIDTH, _HALF_HEIGHT = 4, 2


@fittings_app.callback()
def fittings(ctx: typer.Context) -> None:
    """List all kinds of fittings with their ports drawn: = a tube that passes, - a tube that ends."""
    if ctx.invoked_subcommand is not None:
        return
    for kind in shipped_catalog().kinds:
        bolts = f"; {kind.bolts} bolt{'s' if kind.bolts > 1 else ''}" if kind.bolts else ""
        say(f"{kind.key}: {kind.about}{bolts}")
        say(*(f"    {row}" for row in sketch(kind)))
    say("sizes are generic: measure yours (tubeframe fittings calibrate --help)")


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
