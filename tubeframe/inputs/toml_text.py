"""Reading a TOML file of the user's."""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, Any

from tubeframe.inputs.text_file import read_text, unreadable

if TYPE_CHECKING:
    from pathlib import Path

_MOST_DEEP = 64
_DEEP = re.compile(rf"""(?<![\w"'-])(?:[\w"'-]++\s*+\.\s*+){{{_MOST_DEEP}}}""")
"""Keys with ever more points: the reader's time goes with the square of them."""


def read_toml(path: Path) -> dict[str, Any]:
    """Read a TOML file; InputError when it is not there, too large, or not TOML."""
    return parsed(read_text(path), path)


def parsed(text: str, path: Path) -> dict[str, Any]:
    """Return the values of a TOML text; InputError when it is not TOML."""
    deep = _DEEP.search(text)
    if deep is not None:
        line = text.count("\n", 0, deep.start()) + 1
        raise unreadable(path, f"on line {line} a key has over {_MOST_DEEP} parts", "mend that line")
    try:
        return tomllib.loads(text)
    except RecursionError as error:
        raise unreadable(path, "its lists or tables lie too deep in each other", "no file of ours does") from error
    except tomllib.TOMLDecodeError as error:
        raise unreadable(path, f"it is not TOML: {error}", "mend that line") from error
    except ValueError as error:
        message = "it is not TOML: a number has too many digits, or a date does not exist"
        raise unreadable(path, message, "look for it") from error
