"""One file written whole: into a new file beside it, which then takes its name in one step."""

from __future__ import annotations

import os
import shutil
from contextlib import suppress
from itertools import count
from pathlib import Path

from tubeframe.errors import OutputError, Problem

_ANOTHER = "name another file"


def write_whole_file(path: Path, data: bytes) -> None:
    """Write a file, in place of the one that is there; a link goes on to the file that it names.

    Raises:
        OutputError: when it cannot be written; it is as it was then.

    """
    try:
        goal = Path(os.path.realpath(path))
        made = _beside(goal, data)
        try:
            if goal.exists():
                shutil.copymode(goal, made)
            made.replace(goal)
        finally:
            made.unlink(missing_ok=True)
    except OSError as error:
        raise _failed(path, error) from error


def write_new_file(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, whole or not at all.

    Raises:
        OutputError: when there is one, or it cannot be written.

    """
    try:
        made = _beside(path, data)
        try:
            _name(made, path)
        finally:
            made.unlink(missing_ok=True)
    except OSError as error:
        raise _failed(path, error) from error


def _name(made: Path, path: Path) -> None:
    """Give a file its name, which nothing may have; on a disk without second names it is looked for before."""
    try:
        os.link(made, path, follow_symlinks=False)
    except FileExistsError:
        raise
    except OSError:
        with path.open("xb"):
            pass
        made.replace(path)


def _beside(path: Path, data: bytes) -> Path:
    for number in count(1):
        made = path.with_name(f".tubeframe-{os.getpid()}-{number}")
        try:
            with made.open("xb") as file:
                file.write(data)
        except FileExistsError:
            continue
        except BaseException:
            with suppress(OSError):
                made.unlink(missing_ok=True)
            raise
        return made
    raise AssertionError


def _failed(path: Path, error: OSError) -> OutputError:
    message = f"it cannot be written: {error.strerror or error}"
    return OutputError(Problem(where=str(path), key="", message=message, remedy=f"nothing was changed; {_ANOTHER}"))
