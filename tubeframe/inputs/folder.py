"""Whether a folder may be written."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING

from tubeframe.design_document import SCHEMA_FAMILY
from tubeframe.errors import InputError, Problem

if TYPE_CHECKING:
    from pathlib import Path


def check_folder(folder: Path, *, force: bool) -> None:
    """Refuse a folder that cannot be written, or that holds files which are not ours.

    Raises:
        InputError: with the reason and what to do.

    """
    if folder.exists() and not folder.is_dir():
        raise _refused(folder, "it is a file, not a folder", "name another folder with --out")
    if folder.is_dir() and any(folder.iterdir()) and not is_ours(folder) and not force:
        raise _refused(
            folder,
            "it holds files that tubeframe did not write",
            "name another folder with --out, or give --force to write among them",
        )
    parent = next(p for p in (folder, *folder.absolute().parents) if p.exists())
    if not parent.is_dir() or not os.access(parent, os.W_OK | os.X_OK):
        raise _refused(folder, f"{parent} cannot be written", "name another folder with --out")


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
