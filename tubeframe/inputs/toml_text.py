"""Reading a TOML file of the user's."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Any

from tubeframe.errors import InputError, Problem

if TYPE_CHECKING:
    from pathlib import Path

_MOST_BYTES = 1_000_000


def read_toml(path: Path) -> dict[str, Any]:
    """Read a TOML file; InputError when it is not there, too large, or not TOML."""
    return parsed(read_text(path), path)


def read_text(path: Path) -> str:
    """Read a text file of ours; InputError when it is not there, too large, or not UTF-8."""
    try:
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
    except OSError as error:
        raise _wrong(path, f"it cannot be read: {error.strerror}", "check the name") from error
    if len(data) > _MOST_BYTES:
        raise _wrong(path, "it is over 1 MB", "this is not a file of ours")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        raise _wrong(path, "it is not UTF-8 text", "save it as UTF-8") from error


def parsed(text: str, path: Path) -> dict[str, Any]:
    """Return the values of a TOML text; InputError when it is not TOML."""
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise _wrong(path, f"it is not TOML: {error}", "mend that line") from error


def _wrong(path: Path, message: str, remedy: str) -> InputError:
    return InputError(Problem(where=str(path), key="", message=message, remedy=remedy))
