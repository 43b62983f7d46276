"""The commands put together."""

from __future__ import annotations

from typing import Annotated

import typer

from tubeframe._version import __version__
from tubeframe.cli.build import build_app
from tubeframe.cli.check import check_app
from tubeframe.cli.cut import cut
from tubeframe.cli.fittings import fittings_app
from tubeframe.cli.square import square
from tubeframe.cli.templates import templates
from tubeframe.cli.workshop import workshop_app

app = typer.Typer(
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help="From three numbers to a frame of conduit and clamp fittings that goes together.",
)
app.add_typer(build_app, name="build")
app.add_typer(check_app, name="check")
app.command()(templates)
app.command()(cut)
app.command()(square)
app.add_typer(workshop_app, name="workshop")
app.add_typer(fittings_app, name="fittings")


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
