"""Writing everything that a build writes, all of it or nothing."""

from __future__ import annotations

import re
import shutil
import tempfile
from enum import StrEnum
from functools import cached_property
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.errors import OutputError, Problem

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Sequence
    from typing import BinaryIO

    from tubeframe.design import Design
    from tubeframe.drawing.drawings import Drawings
    from tubeframe.drawing.model.sheet import Sheet
    from tubeframe.output.second_process import SecondProcess
    from tubeframe.solids.model import Model

    Writer = Callable[["Build", BinaryIO], None]
    Tell = Callable[[str], None]


class Format(StrEnum):
    """What can be asked for with --only."""

    STEP = "step"
    GLB = "glb"
    DXF = "dxf"
    PDF = "pdf"
    CSV = "csv"
    FRAME = "frame"
    PREVIEW = "preview"
    LABELS = "labels"


EVERYTHING = tuple(f for f in Format if f not in (Format.FRAME, Format.PREVIEW, Format.LABELS))
"""What is written when nothing is asked for; a text frame, pictures of the sheets and labels only when they are."""

_SOLID = (Format.STEP, Format.GLB)
_BESIDE = (*_SOLID, Format.DXF)
"""What the second process makes."""
_PREVIEW_NAME = re.compile(r"preview-[1-9][0-9]*\.png")
_PREVIEW_DPI = 100.0


def build_files(formats: Collection[Format]) -> dict[str, str]:
    """Return the names of the files of some formats, in the order they are written, with what each is.

    Pictures of the sheets are not among them: how many there are is known when the sheets are laid out.
    """
    return {name: what for name, (form, what, _) in _FILES.items() if form is None or form in formats}


def needs_solids(formats: Collection[Format]) -> bool:
    """Whether some of the formats need the kernel, which takes long to load."""
    return any(form in _SOLID for form in formats)


class Build:
    """What a design is written from: drawings and solids, each made when a file first needs it, and once."""

    def __init__(self, design: Design, formats: Collection[Format], beside: SecondProcess | None = None) -> None:
        """Take a design, what is to be written of it, and who makes some of that meanwhile."""
        self.formats = formats
        self._stated = design
        self._beside = beside
        if beside is not None:
            beside.give(
                design, formats, [n for n, (form, _, _) in _FILES.items() if form in _BESIDE and form in formats]
            )

    @cached_property
    def design(self) -> Design:
        """The design, with what is found only when some files are drawn."""
        if Format.DXF not in self.formats or self._stated.workshop.layout_table is None:
            return self._stated
        return self.drawings.design

    @cached_property
    def drawings(self) -> Drawings:
        """All drawings."""
        from tubeframe.drawing.drawings import Drawings

        return Drawings(self._stated, tells_layout=Format.DXF in self.formats)

    @cached_property
    def made_beside(self) -> dict[str, bytes]:
        """The files that the second process made, by name."""
        return {} if self._beside is None else self._beside.made()

    @cached_property
    def model(self) -> Model:
        """The solids."""
        from tubeframe.solids.model import model_of

        return model_of(self._stated)

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
                for name in (*_FILES, *earlier):
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
    for name in sorted(names, key=lambda n: _FILES[n][0] in _BESIDE):
        tell(names[name])
        with (folder / name).open("wb") as target:
            made = build.made_beside.get(name) if _FILES[name][0] in _BESIDE else None
            if made is None:
                _FILES[name][2](build, target)
            else:
                target.write(made)
    if Format.PREVIEW not in build.formats:
        return tuple(names)
    tell("pictures of the sheets")
    return (*names, *_write_previews(build, folder))


def made_files(build: Build, names: Iterable[str]) -> dict[str, bytes]:
    """Return the files of some names."""
    files = {}
    for name in names:
        target = BytesIO()
        _FILES[name][2](build, target)
        files[name] = target.getvalue()
    return files


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


# Each writer is imported when it is used: they bring CAD and plotting libraries along.


def _design(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.json_file import write_design

    write_design(build.design, target)


def _parameters(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.toml_file import write_parameters

    write_parameters(build.design, target)


def _frame(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.toml_file import write_frame

    write_frame(build.design, target)


def _pieces(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.tables import write_pieces

    write_pieces(build.design, target)


def _cut_plan(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.tables import write_cut_plan

    write_cut_plan(build.design, target)


def _buying_list(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.tables import write_buying_list

    write_buying_list(build.design, target)


def _elevations(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.dxf import write_dxf

    write_dxf(build.drawings.elevations, target, build.design.workshop.drafting.dxf)


def _layout(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.dxf import write_dxf

    write_dxf(build.drawings.layout, target, build.design.workshop.drafting.dxf)


def _sheets(build: Build, target: BinaryIO) -> None:
    _pages(build.drawings.sheets, "shop sheets", build.design.frame.name, target)


def _labels(build: Build, target: BinaryIO) -> None:
    _pages(build.drawings.labels, "labels", build.design.frame.name, target)


def _pages(sheets: Sequence[Sheet], what: str, name: str, target: BinaryIO) -> None:
    from tubeframe._version import __version__
    from tubeframe.output.pdf import write_pdf

    write_pdf(sheets, target, title=f"{name}: {what}", author=f"tubeframe {__version__}", subject=name)


def _step(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.step_file import write_step

    write_step(build.model, target)


def _glb(build: Build, target: BinaryIO) -> None:
    from tubeframe.output.glb import write_glb

    write_glb(build.model, target)


_FILES: dict[str, tuple[Format | None, str, Writer]] = {
    "design.json": (None, "design", _design),
    "parameters.toml": (None, "parameters", _parameters),
    "frame.toml": (Format.FRAME, "text frame", _frame),
    "pieces.csv": (Format.CSV, "lists", _pieces),
    "cut_plan.csv": (Format.CSV, "lists", _cut_plan),
    "buying_list.csv": (Format.CSV, "lists", _buying_list),
    "elevations.dxf": (Format.DXF, "elevations", _elevations),
    "layout.dxf": (Format.DXF, "full-size layout", _layout),
    "sheets.pdf": (Format.PDF, "shop sheets", _sheets),
    "labels.pdf": (Format.LABELS, "labels", _labels),
    "model.step": (Format.STEP, "solid model", _step),
    "model.glb": (Format.GLB, "model to look at", _glb),
}
