"""A list of pieces to cut, from a spreadsheet: columns mark, length, quantity, and tube where there are several."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.ranges import MOST_COORDINATE, fault_of_name
from tubeframe.errors import InputError, Problem, nearest_name, shown
from tubeframe.geometry.units import format_range, parse_length
from tubeframe.inputs.text_file import read_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from pathlib import Path

    from tubeframe.geometry.units import Units

NO_TUBE = "tube"
"""What a tube is called when the list does not say."""

_NEEDED = ("mark", "length", "quantity")
_MOST_ROWS = 5_000
_MOST_PIECES = 100_000
_WHOLE = re.compile(r"[0-9]{1,9}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedPiece:
    """One row: its line in the file, what the piece is called, its length [mm], how many, and of which tube."""

    line: int
    mark: str
    length: float
    quantity: int
    tube: str


def read_cut_list(path: Path, units: Units, problems: list[Problem]) -> tuple[ListedPiece, ...]:
    """Read a list of pieces; a bare length is in `units`. Columns that are not needed are passed over.

    Every bad row is added to the problems with its line, and left out.
    """
    try:
        rows = _rows(path, read_text(path))
    except InputError as error:
        problems += error.problems
        return ()
    before = len(problems)
    pieces = [p for line, row in rows if (p := _piece(str(path), line, row, units, problems)) is not None]
    problems += _clashes(str(path), pieces)
    if not pieces and len(problems) == before:
        problems.append(
            Problem(where=str(path), key="", message="there is no piece in it", remedy="write a row for each")
        )
    if sum(p.quantity for p in pieces) > _MOST_PIECES:
        problems.append(Problem(where=str(path), key="quantity", message=f"more than {_MOST_PIECES} pieces in all"))
    return tuple(pieces)


def _rows(path: Path, text: str) -> list[tuple[int, Mapping[str, str]]]:
    """Return every row that is not empty, by its columns' names, with its line."""
    first = text.split("\n", 1)[0]
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=";" if ";" in first and "," not in first else ",")
    try:
        lines = [(reader.line_num, [cell.strip() for cell in row]) for row in reader]
    except csv.Error as error:
        message = f"it is not CSV: {error}"
        raise InputError(Problem(where=f"{path}, line {reader.line_num}", key="", message=message)) from error
    filled = [(line, row) for line, row in lines if any(row)]
    if len(filled) > _MOST_ROWS:
        message = f"it has {len(filled):,} rows; at most {_MOST_ROWS:,}"
        raise InputError(Problem(where=str(path), key="", message=message, remedy="put equal pieces on one row"))
    names = [name.lower() for name in filled[0][1]] if filled else []
    missing = [name for name in _NEEDED if name not in names]
    if missing:
        raise InputError(
            *(
                Problem(
                    where=f"{path}, line {filled[0][0] if filled else 1}",
                    key=name,
                    message="there is no such column",
                    remedy=nearest_name(name, names) if any(names) else f"start with {','.join(_NEEDED)}",
                )
                for name in missing
            )
        )
    return [(line, dict(zip(names, row, strict=False))) for line, row in filled[1:]]


def _piece(path: str, line: int, row: Mapping[str, str], units: Units, problems: list[Problem]) -> ListedPiece | None:
    where = f"{path}, line {line}"
    found = list(_wrong_cells(row, units))
    problems += [Problem(where=where, key=key, message=message) for key, message in found]
    if found:
        return None
    return ListedPiece(
        line=line,
        mark=row["mark"],
        length=parse_length(row["length"], units),
        quantity=int(row["quantity"]),
        tube=row.get("tube", "") or NO_TUBE,
    )


def _wrong_cells(row: Mapping[str, str], units: Units) -> Iterator[tuple[str, str]]:
    checks: Mapping[str, Callable[[str], str | None]] = {
        "mark": _wrong_name,
        "length": lambda text: _wrong_length(text, units),
        "quantity": _wrong_quantity,
        "tube": _wrong_name,
    }
    for key, wrong in checks.items():
        text = row.get(key, "")
        missing = "it is missing" if key in _NEEDED else None
        message = wrong(text) if text else missing
        if message:
            yield key, message


def _wrong_name(text: str) -> str | None:
    fault = fault_of_name(text)
    return f"{shown(text)} cannot be used: {fault}" if fault else None


def _wrong_length(text: str, units: Units) -> str | None:
    try:
        length = parse_length(text, units)
    except ValueError as error:
        return str(error)
    if length > MOST_COORDINATE:
        return f"{shown(text)} is over {format_range(MOST_COORDINATE, units)}"
    return None if length > 0.0 else f"{shown(text)} is not longer than nothing"


def _wrong_quantity(text: str) -> str | None:
    return None if _WHOLE.fullmatch(text) and int(text) > 0 else f"{shown(text)} is not a whole number from 1 up"


def _clashes(path: str, pieces: list[ListedPiece]) -> Iterator[Problem]:
    """Tell marks that stand for two lengths."""
    first: dict[tuple[str, str], ListedPiece] = {}
    for piece in pieces:
        other = first.setdefault((piece.tube, piece.mark), piece)
        if abs(other.length - piece.length) > 1e-6:
            yield Problem(
                where=f"{path}, line {piece.line}",
                key="mark",
                message=f"{shown(piece.mark)} stands for another length on line {other.line}",
                remedy="give it a mark of its own",
            )
