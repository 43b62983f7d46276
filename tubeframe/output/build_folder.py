"""Writing everything that a build writes, all of it or nothing."""

from __future__ import annotations

import re
from functools import cached_property
from typing import TYPE_CHECKING

from tubeframe.errors import OutputError, Problem
from tubeframe.output.build_files import ALL_FILES, Content, Format, build_files, is_made_beside
from tubeframe.output.exchange import Owned, write_whole

if TYPE_CHECKING:
    from collections.abc import Callable, Collection
    from pathlib import Path

    from tubeframe.design import Design
    from tubeframe.output.second_process import SecondProcess

    Tell = Callable[[str], None]

_PREVIEW_NAME = re.compile(r"preview-[1-9][0-9]*\.png")
_NO_NAME = re.compile(r"(?!)")
_PREVIEW_DPI = 100.0


class Build(Content):
    """A design that is written into a folder."""

    def __init__(self, design: Design, formats: Collection[Format], beside: SecondProcess | None = None) -> None:
        """Take a design, what is to be written of it, and who makes some of that meanwhile."""
        super().__init__(design, formats)
        self._beside = beside
        if beside is not None:
            beside.give(design, formats, [name for name in build_files(formats) if is_made_beside(name)])

    @cached_property
    def made_beside(self) -> dict[str, bytes]:
        """The files that the second process made, by name."""
        return {} if self._beside is None else self._beside.made()

    def write(self, folder: Path, tell: Tell, kept: Collection[str] = ()) -> tuple[str, ...]:
        """Write all files into a folder and remove those of an earlier build that are not written now.

        The folder changes as one; `kept` are names of ours that stay as they are.

        Raises:
            OutputError: when the folder cannot be written.

        """
        try:
            return write_whole(folder, self._owned(folder, kept), lambda made: _write_files(self, made, tell))
        except OSError as error:
            message = f"it cannot be written: {error.strerror or error}"
            raise OutputError(
                Problem(where=str(folder), key="--out", message=message, remedy="nothing was changed; name another")
            ) from error

    def _owned(self, folder: Path, kept: Collection[str]) -> Owned:
        """Say which files are ours: in a folder that no build wrote, only those that are written now."""
        if (folder / "design.json").is_file():
            return Owned(names=frozenset(ALL_FILES), pattern=_PREVIEW_NAME, kept=frozenset(kept))
        pattern = _PREVIEW_NAME if Format.PREVIEW in self.formats else _NO_NAME
        return Owned(names=frozenset(build_files(self.formats)), pattern=pattern, kept=frozenset(kept))


def _write_files(build: Build, folder: Path, tell: Tell) -> tuple[str, ...]:
    """Write all files, at last those that the second process makes meanwhile; return their names."""
    names = build_files(build.formats)
    for name in sorted(names, key=is_made_beside):
        tell(names[name])
        with (folder / name).open("wb") as target:
            made = build.made_beside.get(name) if is_made_beside(name) else None
            if made is None:
                build.write_file(name, target)
            else:
                target.write(made)
    if Format.PREVIEW not in build.formats:
        return tuple(names)
    tell("pictures of the sheets")
    return (*names, *_write_previews(build, folder))


def _write_previews(build: Build, folder: Path) -> tuple[str, ...]:
    """Write the pages of the shop sheets as pictures, one a page; return their names."""
    from tubeframe.output.png import write_png

    names = []
    for number, sheet in enumerate(build.drawings.sheets, start=1):
        names.append(f"preview-{number}.png")
        with (folder / names[-1]).open("wb") as target:
            write_png(sheet, target, dpi=_PREVIEW_DPI)
    return tuple(names)
