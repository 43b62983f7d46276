"""A folder's files written all or none: made in a hidden folder beside it, which then takes its place in one step.

Where the system cannot exchange folders, or the one above is not ours to write, they are made in a hidden folder inside
it, and moved one by one; a build that is killed between two of them is finished by the next.
"""

from __future__ import annotations

import os
import shutil
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.output.hidden_folder import NEW, PREFIX, clear_leftovers, give_back, hidden_folder
from tubeframe.output.swapping import swap

if TYPE_CHECKING:
    import re
    from collections.abc import Callable

    Fill = Callable[[Path], tuple[str, ...]]
    """Writes files into a folder and returns their names."""

_READY = f"{PREFIX}ready"
"""Inside a folder: files that are whole, and have to be moved out of it."""
_STALE = f"{PREFIX}stale"
"""In there: the names of those of the build before that go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """Which files of a folder are a build's own, by name or by pattern; `kept` are not written all the same."""

    names: frozenset[str]
    pattern: re.Pattern[str]
    kept: frozenset[str] = frozenset()

    def has(self, name: str) -> bool:
        """Whether a file is the build's to write and to take away."""
        return name not in self.kept and (name in self.names or self.pattern.fullmatch(name) is not None)


def write_whole(folder: Path, owned: Owned, fill: Fill) -> tuple[str, ...]:
    """Let a folder hold what `fill` writes, and all that was in it and is not the build's own.

    Raises:
        OSError: when it cannot be written; it is as it was then.

    """
    target = Path(os.path.realpath(folder))
    missing = [p for p in target.parents if not p.exists()]
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _clear(target, owned)
        if os.access(target.parent, os.W_OK | os.X_OK) and not target.is_mount():
            return _beside(target, owned, fill)
        return _inside(target, owned, fill)
    except BaseException:
        for made in missing:
            with suppress(OSError):
                made.rmdir()
        raise


def _clear(target: Path, owned: Owned) -> None:
    """Finish or take away what builds left that were killed."""
    if (target / _READY).is_dir():
        _move_out(target / _READY, target, owned)
    for parent in (target.parent, target):
        clear_leftovers(parent, owned.has)
    (target / NEW).unlink(missing_ok=True)


def _beside(target: Path, owned: Owned, fill: Fill) -> tuple[str, ...]:
    """Write beside the folder, then let both change places."""
    with hidden_folder(target.parent, target.name) as hidden:
        names = tuple(n for n in fill(hidden) if n not in owned.kept)
        if not target.exists():
            hidden.rename(target)
            return names
        (hidden / NEW).touch()
        _carry_over(target, hidden, owned)
        shutil.copymode(target, hidden)
        if not swap(hidden, target):
            return _inside(target, owned, lambda inner: _moved(hidden, inner, names))
        give_back(hidden, target, owned.has)
        (target / NEW).unlink()
    return names


def _carry_over(old: Path, new: Path, owned: Owned) -> None:
    """Let the new folder hold what the person put into the old one: the same files, under a second name."""
    for entry in sorted(os.scandir(old), key=lambda e: e.name):
        if owned.has(entry.name) or entry.name.startswith(PREFIX):
            continue
        goal = new / entry.name
        goal.unlink(missing_ok=True)
        if entry.is_dir(follow_symlinks=False):
            shutil.copytree(entry.path, goal, symlinks=True, copy_function=_link)
        else:
            _link(entry.path, str(goal))


def _link(source: str, goal: str) -> None:
    """Give a file a second name; a copy where the disk knows none."""
    try:
        os.link(source, goal, follow_symlinks=False)
    except OSError:
        shutil.copy2(source, goal, follow_symlinks=False)


def _inside(target: Path, owned: Owned, fill: Fill) -> tuple[str, ...]:
    """Write into a hidden folder inside, and move the files out of it one by one."""
    target.mkdir(exist_ok=True)
    with hidden_folder(target, target.name) as hidden:
        names = tuple(n for n in fill(hidden) if n not in owned.kept)
        for extra in [p for p in hidden.iterdir() if p.name not in names]:
            extra.unlink()
        stale = sorted(p.name for p in target.iterdir() if owned.has(p.name) and p.name not in names)
        (hidden / _STALE).write_text("\n".join(stale), encoding="utf-8")
        hidden.rename(target / _READY)
        _move_out(target / _READY, target, owned)
    return names


def _move_out(ready: Path, target: Path, owned: Owned) -> None:
    """Move whole files to where they belong, and take away those of the build before; begun again it goes on."""
    for made in sorted(p for p in ready.iterdir() if p.name != _STALE):
        made.replace(target / made.name)
    stale = ready / _STALE
    for name in stale.read_text(encoding="utf-8").splitlines() if stale.exists() else ():
        if owned.has(name):
            (target / name).unlink(missing_ok=True)
    stale.unlink(missing_ok=True)
    ready.rmdir()


def _moved(source: Path, goal: Path, names: tuple[str, ...]) -> tuple[str, ...]:
    """Move files that are written already."""
    for name in names:
        (source / name).replace(goal / name)
    return names
