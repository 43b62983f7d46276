"""`tubeframe workshop`: the file of the user's own shop."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from typing import Annotated

import typer

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.cli.say import say
from tubeframe.inputs.workshop_text import read_workshop
from tubeframe.output.one_file import write_new_file

workshop_app = typer.Typer(no_args_is_help=True, help="Write or check the file of your own shop.")


@workshop_app.command()
def new(path: Annotated[Path, typer.Argument(help="the file to write")] = Path("workshop.toml")) -> None:
    """Write a commented workshop file to fill in."""
    text = resources.files("tubeframe.catalog").joinpath("workshop.example.toml").read_text(encoding="utf-8")
    write_new_file(path, text.encode())
    say(f"wrote {path}; build with --workshop {path}")


@workshop_app.command()
def check(path: Annotated[Path, typer.Argument(help="the file to check")]) -> None:
    """Check a workshop file."""
    workshop_from_document(read_workshop(path), str(path))
    say(f"{path} is fine")
