"""`tubeframe square`: which corner to push, from two diagonals measured on the frame."""

from __future__ import annotations

from pathlib import Path  # noqa: TC003  typer reads it
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.assembly.squaring import push_of
from tubeframe.cli.say import say
from tubeframe.errors import InputError, Problem
from tubeframe.geometry.units import format_length, parse_length
from tubeframe.inputs.faces_file import read_face
from tubeframe.words.squaring import point_lines, push_lines

if TYPE_CHECKING:
    from tubeframe.geometry.units import Units
    from tubeframe.inputs.faces_file import BuiltFace

_TWO = 2


def square(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="the folder that a build wrote")],
    face: Annotated[str, typer.Option(help="floor, front, back, left or right, as you face it from outside")],
    measured: Annotated[
        list[str] | None,
        typer.Option(help="a diagonal, given twice: lower left to upper right, then upper left to lower right"),
    ] = None,
) -> None:
    """Say which corner of a face to push, and how far, from its two measured diagonals."""
    found = read_face(folder, face)
    lines = point_lines(face, found.points, found.units)
    if not measured:
        say(f"{face}: both diagonals {format_length(found.diagonal, found.units)}")
    else:
        rising, falling = _diagonals(measured, found)
        push = push_of(found.width, found.height, rising, falling)
        lines = [*push_lines(face, found.diagonal, push, found.units), *lines]
    for line in lines:
        say(line)


def _diagonals(measured: list[str], face: BuiltFace) -> tuple[float, float]:
    """Read both diagonals [mm].

    Raises:
        InputError: when there are not two, or no parallelogram of these sides has them.

    """
    if len(measured) != _TWO:
        message = f"{len(measured)} diagonals are given, not two"
        raise _refused(message, "give --measured twice")
    rising, falling = (_length(text, face.units) for text in measured)
    least, most = abs(face.width - face.height), face.width + face.height
    for text, value in zip(measured, (rising, falling), strict=True):
        if not least < value < most:
            limits = f"{format_length(least, face.units)} to {format_length(most, face.units)}"
            message = f"{text} cannot be a diagonal of this face: it would be {limits}"
            raise _refused(message, "measure it again")
    return rising, falling


def _length(text: str, units: Units) -> float:
    try:
        return parse_length(text, units)
    except ValueError as error:
        raise _refused(str(error), "write a length with its unit") from error


def _refused(message: str, remedy: str) -> InputError:
    return InputError(Problem(where="", key="--measured", message=message, remedy=remedy))
