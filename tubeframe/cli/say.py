"""What is printed: lines that drive no terminal, and plain values as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import typer

from tubeframe.errors import printable

if TYPE_CHECKING:
    from collections.abc import Mapping


def say(*lines: str) -> None:
    """Print lines; what is no letter, figure or sign in them is shown as its code."""
    typer.echo("\n".join(printable(inner) for line in lines for inner in line.split("\n")))


def say_document(document: Mapping[str, object]) -> None:
    """Print plain values as JSON, in ASCII: every terminal and pipe takes it."""
    typer.echo(json.dumps(document, indent=1, allow_nan=False))
