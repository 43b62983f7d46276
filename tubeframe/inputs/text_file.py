"""Reading a text file of the user's: a plain file of no more than 5 MB in UTF-8, whatever else was named."""

from __future__ import annotations

import codecs
import os
import stat
from typing import TYPE_CHECKING

from tubeframe.errors import InputError, Problem

if TYPE_CHECKING:
    from pathlib import Path

MOST_BYTES = 5_000_000
_MEGABYTE = 1_000_000
_WIDE = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_KINDS = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
    stat.S_IFSOCK: "a socket",
}


def read_text(path: Path) -> str:
    """Read a text file with its line ends as they are; InputError when it is no such file."""
    data = _bytes(path)
    if data.startswith(_WIDE):
        raise unreadable(path, "it is UTF-16, not UTF-8 text", "save it as UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise unreadable(path, f"it is not UTF-8 text, first on line {line}", "save it as UTF-8") from error


def unreadable(path: Path, message: str, remedy: str = "") -> InputError:
    """Say why a file cannot be read."""
    return InputError(Problem(where=str(path), key="", message=message, remedy=remedy))


def _bytes(path: Path) -> bytes:
    """Read a plain file; what is none is not waited for."""
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
        try:
            kind = stat.S_IFMT(os.fstat(handle).st_mode)
            if kind != stat.S_IFREG:
                raise unreadable(path, f"it is {_KINDS.get(kind, 'something else')}, not a file", "name a file")
            with open(handle, "rb", closefd=False) as file:
                data = file.read(MOST_BYTES + 1)
        finally:
            os.close(handle)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else "this is no name of a file"
        raise unreadable(path, f"it cannot be read: {why}", "check the name") from error
    if len(data) > MOST_BYTES:
        raise unreadable(path, f"it is over {MOST_BYTES // _MEGABYTE} MB", "this is no file for tubeframe")
    return data
