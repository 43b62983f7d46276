"""Hostile cases, drawn: the same number gives the same case."""

from __future__ import annotations

import csv
import io
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random  # noqa: TID251  drawn with a seed: the same every time
from typing import TYPE_CHECKING, Any

from tests.hostile.bases import BENDER, COMMANDS, CUT, FITTING, FRAME, PARAMETERS, PIECES, SOUND, WORKSHOP
from tests.hostile.moving import moved
from tests.hostile.spoiling import spoiled
from tests.hostile.values import odd_text
from tests.hostile.writing import spoiled_bytes, toml, toml_tables

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A command with the files that it reads; `file` is the one that was spoiled."""

    name: str
    arguments: tuple[str, ...]
    files: Mapping[str, bytes]
    file: str


def case(number: int) -> Case:
    """Draw a case."""
    draw = Random(number)
    kinds: tuple[Callable[[Random], Case], ...] = (
        *(_frame, _moved, _workshop, _parameters, _pieces, _command, _measured, _moved, _text),
    )
    made = kinds[number % len(kinds)](draw)
    return Case(name=f"{number}-{made.name}", arguments=made.arguments, files=made.files, file=made.file)


def _only(draw: Random) -> tuple[str, ...]:
    return ("--only", draw.choice(("csv", "csv", "csv", "csv", "csv", "csv", "frame", "dxf", "pdf", "csv,glb")))


def _written(draw: Random, document: Mapping[str, Any]) -> bytes:
    write = toml_tables if draw.random() < 0.5 else toml
    data = write(document).encode("utf-8", "surrogatepass")
    return spoiled_bytes(draw, data) if draw.random() < 0.15 else data


def _frame(draw: Random) -> Case:
    data = _written(draw, spoiled(draw, FRAME))
    arguments = ("build", "a.toml", "--out", "out", *_only(draw))
    if draw.random() < 0.2:
        arguments = ("check", "a.toml")
    return Case(name="frame", arguments=arguments, files={"a.toml": data}, file="a.toml")


def _moved(draw: Random) -> Case:
    data = toml(moved(draw, draw.choice(SOUND))).encode()
    arguments = ("build", "a.toml", "--out", "out", *_only(draw))
    if draw.random() < 0.2:
        arguments = ("check", "a.toml")
    return Case(name="moved", arguments=arguments, files={"a.toml": data}, file="a.toml")


def _text(draw: Random) -> Case:
    """Take a frame of the library of frames, or a shop, with numbers moved."""
    if draw.random() < 0.5:
        data = toml(moved(draw, tomllib.loads(draw.choice(_library())))).encode()
        arguments = ("build", "a.toml", "--out", "out", *_only(draw))
        return Case(name="library", arguments=arguments, files={"a.toml": data}, file="a.toml")
    files = {"shop.toml": toml(moved(draw, WORKSHOP)).encode()}
    template = draw.choice(("table", "shelf", "bed-rack"))
    arguments = ("build", template, "--workshop", "shop.toml", "--out", "out", *_only(draw))
    return Case(name="shop", arguments=arguments, files=files, file="shop.toml")


@cache
def _library() -> tuple[str, ...]:
    folder = Path(__file__).parents[1] / "frames" / "text"
    return tuple(p.read_text(encoding="utf-8") for p in sorted(folder.rglob("*.toml")))


def _workshop(draw: Random) -> Case:
    files = {"shop.toml": _written(draw, spoiled(draw, WORKSHOP))}
    arguments = ("workshop", "check", "shop.toml")
    if draw.random() < 0.4:
        arguments = ("build", "table", "--workshop", "shop.toml", "--out", "out", *_only(draw))
    return Case(name="workshop", arguments=arguments, files=files, file="shop.toml")


def _parameters(draw: Random) -> Case:
    files = {"p.toml": _written(draw, spoiled(draw, PARAMETERS))}
    arguments = ("build", "table", "--parameters", "p.toml", "--out", "out", *_only(draw))
    return Case(name="parameters", arguments=arguments, files=files, file="p.toml")


def _pieces(draw: Random) -> Case:
    rows = [list(row) for row in PIECES]
    for _ in range(draw.randint(1, 3)):
        row = draw.choice(rows)
        match draw.randrange(5):
            case 0 if row:
                row.pop()
            case 1:
                row.append(odd_text(draw))
            case 2:
                rows += [[f"N{n}", f"{20 + 0.37 * n}in", "1"] for n in range(draw.choice((1, 30, 60)))]
            case _ if row:
                row[draw.randrange(len(row))] = odd_text(draw)
    text = io.StringIO(newline="")
    csv.writer(text).writerows(rows)
    data = text.getvalue().encode("utf-8", "surrogatepass")
    files = {"pieces.csv": spoiled_bytes(draw, data) if draw.random() < 0.2 else data}
    command = [*CUT[:1], "pieces.csv", *CUT[1:]]
    if draw.random() < 0.3:
        command[draw.randrange(2, len(command))] = odd_text(draw).replace("\x00", "")
    return Case(name="pieces", arguments=tuple(command), files=files, file="pieces.csv")


def _command(draw: Random) -> Case:
    words = list(draw.choice(COMMANDS))
    for _ in range(draw.randint(1, 2)):
        odd = odd_text(draw).replace("\x00", "")  # no system passes that one on
        match draw.randrange(6):
            case 0:
                words.insert(draw.randrange(len(words) + 1), odd)
            case 1:
                words.pop(draw.randrange(len(words)))
            case 2:
                words += draw.choice((["--out", odd], ["--workshop", odd], ["--parameters", odd], ["--only", odd]))
            case _:
                words[draw.randrange(len(words))] = odd
    if words[:1] == ["build"]:
        words += ["--only", "csv", *(() if "--out" in words else ("--out", "out"))]
    return Case(name="command", arguments=tuple(words), files={}, file="")


def _measured(draw: Random) -> Case:
    words = list(draw.choice((FITTING, BENDER)))
    data = toml_tables(WORKSHOP).encode()
    if draw.random() < 0.5:
        words[draw.randrange(2, len(words) - 1)] = odd_text(draw).replace("\x00", "")
    else:
        data = _written(draw, spoiled(draw, WORKSHOP))
    return Case(name="measured", arguments=(*words, "shop.toml"), files={"shop.toml": data}, file="shop.toml")
