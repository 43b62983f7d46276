"""The commands put together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperCommand, TyperGroup

from tubeframe._version import __version__

if TYPE_CHECKING:
    from collections.abc import Callable


def _build() -> typer.Typer:
    from tubeframe.cli.build import build_app

    return build_app


def _check() -> typer.Typer:
    from tubeframe.cli.check import check_app

    return check_app


def _cut() -> typer.Typer:
    from tubeframe.cli.cut import cut

    return _alone(cut)


def _templates() -> typer.Typer:
    from tubeframe.cli.templates import templates

    return _alone(templates)


def _new() -> typer.Typer:
    from tubeframe.cli.new import new

    return _alone(new)


def _measure() -> typer.Typer:
    from tubeframe.cli.measure import measure

    return _alone(measure)


def _square() -> typer.Typer:
    from tubeframe.cli.square import square

    return _alone(square)


def _workshop() -> typer.Typer:
    from tubeframe.cli.workshop import workshop_app

    return workshop_app


def _fittings() -> typer.Typer:
    from tubeframe.cli.fittings import fittings_app

    return fittings_app


def _bend() -> typer.Typer:
    from tubeframe.cli.bend import bend_app

    return bend_app


def _bender() -> typer.Typer:
    from tubeframe.cli.bender import bender_app

    return bender_app


def _alone(command: Callable[..., None]) -> typer.Typer:
    made = typer.Typer(add_completion=False)
    made.command()(command)
    return made


_COMMANDS: dict[str, tuple[Callable[[], typer.Typer], str]] = {
    "build": (_build, "Build a frame from a template: tubeframe build TEMPLATE --PARAMETER VALUE ..."),
    "check": (_check, "Check how a frame from a template holds: tubeframe check TEMPLATE --PARAMETER VALUE ..."),
    "templates": (
        _templates,
        "List the templates; of one that is named, every parameter with its unit, range and default.",
    ),
    "new": (_new, "Write a small working template, with comments, to change into your own: it is Python that runs."),
    "measure": (_measure, "Write a blank measuring sheet: what to measure on the spot, and what each reading decides."),
    "cut": (_cut, "Plan which piece is cut from which stick, at the least cost, proved."),
    "square": (_square, "Say which corner of a face to push, and how far, from its two measured diagonals."),
    "workshop": (_workshop, "Write or check the file of your own shop."),
    "fittings": (_fittings, "List the kinds of fittings, or measure your own."),
    "bend": (_bend, "Where the marks go for one bend or a few, with no frame."),
    "bender": (_bender, "Measure your own bender."),
}
"""What loads each command, and what the list of commands says of it: to be listed a command is not loaded."""


class Commands(TyperGroup):
    """The commands, each loaded when it is asked for: a stick plan does not wait for what a frame needs."""

    def list_commands(self, ctx: Any) -> list[str]:
        """List the commands."""
        del ctx
        return list(_COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """Return a command as it is listed; None when there is no such one."""
        del ctx
        return TyperCommand(cmd_name, help=_COMMANDS[cmd_name][1]) if cmd_name in _COMMANDS else None

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Load the command that is asked for."""
        name, listed, rest = super().resolve_command(ctx, args)
        return name, listed if name is None else loaded(name), rest


def loaded(name: str) -> Any:
    """Load a command."""
    command = typer.main.get_command(_COMMANDS[name][0]())
    command.name = name
    return command


app = typer.Typer(
    cls=Commands,
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help="From three numbers to a frame of conduit and clamp fittings that goes together.",
)


def _version(value: bool) -> None:
    if value:
        typer.echo(f"tubeframe {__version__}")
        raise typer.Exit


@app.callback()
def main(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="print the version and stop")
    ] = False,
) -> None:
    """From three numbers to a frame of conduit and clamp fittings that goes together."""
    del version
