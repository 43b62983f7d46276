"""Whether a folder may be written."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.design_document import SCHEMA_FAMILY
from tubeframe.errors import InputError, Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

_ANOTHER = "name another folder with --out"


def check_folder(folder: Path, *, force: bool) -> None:
    """Refuse a folder that cannot be written, or that holds files which are not ours.

    Raises:
        InputError: with the reason and what to do.

    """
    try:
        fault = _place(folder) or _holder(folder)
        holds_others = folder.is_dir() and any(_others(folder)) and not is_ours(folder)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else "this is no name of a folder"
        raise _refused(folder, f"it cannot be used: {why}", _ANOTHER) from error
    if fault is not None:
        raise _refused(folder, fault, _ANOTHER)
    if holds_others and not force:
        remedy = f"{_ANOTHER}, or give --force to write among them"
        raise _refused(folder, "it holds files that tubeframe did not write", remedy)


def _place(folder: Path) -> str | None:
    """Say why a place is none for a folder that is replaced as a whole; None where it is one."""
    if folder.is_symlink() and not folder.exists():
        return "it is a link to what is not there"
    if folder.exists() and not folder.is_dir():
        return "it is a file, not a folder"
    target = Path(os.path.realpath(folder))
    if target == target.parent:
        return "it is the root of all folders"
    if target in (here := Path.cwd(), *here.parents):
        return "it is the folder that you are in, or one above it"
    return None


def _holder(folder: Path) -> str | None:
    """Say why neither the folder nor the one above it can be written; None where one of them can."""
    target = Path(os.path.realpath(folder))
    parent = next(p for p in (target, *target.parents) if p.exists())
    if not parent.is_dir():
        return f"{parent} is a file, not a folder"
    if not os.access(parent, os.W_OK | os.X_OK):
        return f"{parent} cannot be written"
    return None


def _others(folder: Path) -> Iterator[str]:
    """List what is in a folder but for hidden folders of ours that are left over."""
    return (p.name for p in folder.iterdir() if not p.name.startswith(".tubeframe-"))


def is_ours(folder: Path) -> bool:
    """Whether the folder's design.json says that we wrote it."""
    try:
        with (folder / "design.json").open(encoding="utf-8") as file:
            schema = json.load(file).get("schema", "")
    except (OSError, ValueError, AttributeError):
        return False
    return isinstance(schema, str) and schema.startswith(SCHEMA_FAMILY)


def _refused(folder: Path, message: str, remedy: str) -> InputError:
    return InputError(Problem(where=str(folder), key="--out", message=message, remedy=remedy))
