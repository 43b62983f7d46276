"""`tubeframe new`: a small working template to start from."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from typing import Annotated

import typer

from tubeframe.cli.say import say
from tubeframe.errors import InputError, Problem
from tubeframe.output.one_file import write_new_file

_NAME = "NAME"


def new(name: Annotated[str, typer.Argument(help="what it is called; the file is NAME.py")]) -> None:
    """Write a small working template, with comments, to change into your own: it is Python that runs."""
    stem = name.removesuffix(".py")
    if not stem.isidentifier():
        raise InputError(
            Problem(
                where="",
                key=name,
                message="this is no name for a template",
                remedy="use letters, digits and underscores, as in my_stand",
            )
        )
    path = Path(f"{stem}.py")
    text = resources.files("tubeframe.template").joinpath("starter.py.txt").read_text(encoding="utf-8")
    write_new_file(path, text.replace(_NAME, stem).encode())
    say(f"wrote {path}; build it with tubeframe build {path}, see its options with --help")
