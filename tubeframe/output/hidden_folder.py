"""Hidden folders that a build works in: each has its builder while that runs; one that has none is left over."""

from __future__ import annotations

import os
import re
import shutil
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

PREFIX = ".tubeframe-"
NEW = f"{PREFIX}new"
"""A file in a folder that is not in its place yet: whatever is in there is somewhere else too."""
_NAME = re.compile(r"\.tubeframe-\d+-\d+-(?P<target>.+)", re.DOTALL)
_MOST_BYTES = 200
"""Of the name that it is for: the system takes 255 in all."""


@contextmanager
def hidden_folder(parent: Path, target: str) -> Iterator[Path]:
    """Make a folder that nobody else has, and take it away in the end."""
    made = _made(parent, target)
    with _held(made):
        try:
            yield made
        finally:
            shutil.rmtree(made, ignore_errors=True)


def clear_leftovers(parent: Path, is_own: Callable[[str], bool]) -> None:
    """Take away hidden folders that have no builder any more; what a person put there goes back first."""
    with suppress(OSError):
        left = sorted(e.name for e in os.scandir(parent) if _NAME.fullmatch(e.name) and e.is_dir(follow_symlinks=False))
        for name in left:
            found = _NAME.fullmatch(name)
            if found is not None and _is_alone(parent / name):
                give_back(parent / name, parent / found["target"], is_own)
                shutil.rmtree(parent / name, ignore_errors=True)


def give_back(old: Path, target: Path, is_own: Callable[[str], bool]) -> None:
    """Move into a folder what came into the one before it after both had been compared."""
    if (old / NEW).exists():
        return
    for entry in sorted(os.scandir(old), key=lambda e: e.name):
        goal = target / entry.name
        if is_own(entry.name) or entry.name.startswith(PREFIX) or _is_same(Path(entry.path), goal):
            continue
        if not goal.exists() or entry.is_file(follow_symlinks=False):
            Path(entry.path).replace(goal)


def _is_same(one: Path, other: Path) -> bool:
    """Whether two names stand for one file; folders and links are taken as they were compared before."""
    if not os.path.lexists(other):
        return False
    return not one.is_file() or one.is_symlink() or one.samefile(other)


def _made(parent: Path, target: str) -> Path:
    name = os.fsdecode(os.fsencode(target)[:_MOST_BYTES])
    for number in count(1):
        path = parent / f"{PREFIX}{os.getpid()}-{number}-{name}"
        with suppress(FileExistsError):
            path.mkdir()
            return path
    raise AssertionError


@contextmanager
def _held(folder: Path) -> Iterator[None]:
    """Hold a folder while it is worked in; the system lets go of it when the process ends, however it ends."""
    handle = _locked(folder)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _is_alone(folder: Path) -> bool:
    handle = _locked(folder)
    if handle is None:
        return False
    os.close(handle)
    return True


def _locked(folder: Path) -> int | None:
    """Lock a folder for this process; None where another one has it, or the system has no such locks."""
    try:
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
    except (ImportError, OSError):
        return None
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        return None
    return handle
