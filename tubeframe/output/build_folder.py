"""Writing everything that a build writes, all of it or nothing."""

from __future__ import annotations

import re
import shutil
import tempfile
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.errors import OutputError, Problem
from tubeframe.output.build_files import ALL_FILES, Content, Format, build_files, is_made_beside

if TYPE_CHECKING:
    from collections.abc import Callable, Collection

    from tubeframe.design import Design
    from tubeframe.output.second_process import SecondProcess

    Tell = Callable[[str], None]

_PREVIEW_NAME = re.compile(r"preview-[1-9][0-9]*\.png")
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

    def write(self, folder: Path, tell: Tell) -> tuple[str, ...]:
        """Write all files into a folder and remove those of an earlier build that are not written now.

        All files are made beside the folder first, so that a failure leaves it as it was.

        Raises:
            OutputError: when the folder cannot be written.

        """
        try:
            folder.parent.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryDirectory(prefix=".tubeframe-", dir=folder.parent) as made:
                names = _write_files(self, Path(made), tell)
                earlier = _earlier_previews(folder)
                folder.mkdir(exist_ok=True)
                for name in names:
                    shutil.move(Path(made) / name, folder / name)
                for name in (*ALL_FILES, *earlier):
                    if name not in names:
                        (folder / name).unlink(missing_ok=True)
        except OSError as error:
            message = f"it cannot be written: {error.strerror}"
            raise OutputError(
                Problem(where=str(folder), key="--out", message=message, remedy="name another")
            ) from error
        return names


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


def _earlier_previews(folder: Path) -> list[str]:
    """List pictures of an earlier build; there are none where no build wrote its design."""
    if not (folder / "design.json").is_file():
        return []
    return sorted(p.name for p in folder.iterdir() if _PREVIEW_NAME.fullmatch(p.name))
