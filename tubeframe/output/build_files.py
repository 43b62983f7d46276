"""The files that a build writes, and what each is written from."""

from __future__ import annotations

from enum import StrEnum
from functools import cached_property
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Sequence
    from typing import BinaryIO

    from tubeframe.design import Design
    from tubeframe.drawing.drawings import Drawings
    from tubeframe.drawing.model.sheet import Sheet
    from tubeframe.solids.model import Model

    Writer = Callable[["Content", BinaryIO], None]


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


def build_files(formats: Collection[Format]) -> dict[str, str]:
    """Return the names of the files of some formats, in the order they are written, with what each is.

    Pictures of the sheets are not among them: how many there are is known when the sheets are laid out.
    """
    return {name: what for name, (form, what, _) in _FILES.items() if form is None or form in formats}


def needs_solids(formats: Collection[Format]) -> bool:
    """Whether some of the formats need the kernel, which takes long to load."""
    return any(form in _SOLID for form in formats)


def is_made_beside(name: str) -> bool:
    """Whether the file of a name is one that the second process makes."""
    return _FILES[name][0] in _BESIDE


class Content:
    """What the files of a design are written from: drawings and solids, each made once, when a file first needs it."""

    def __init__(self, design: Design, formats: Collection[Format]) -> None:
        """Take a design and what is to be written of it."""
        self.formats = formats
        self._stated = design

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
    def model(self) -> Model:
        """The solids."""
        from tubeframe.solids.model import model_of

        return model_of(self._stated)

    def write_file(self, name: str, target: BinaryIO) -> None:
        """Write the file of a name."""
        _FILES[name][2](self, target)

    def files(self, names: Iterable[str]) -> dict[str, bytes]:
        """Return the files of some names."""
        found = {}
        for name in names:
            target = BytesIO()
            self.write_file(name, target)
            found[name] = target.getvalue()
        return found


# Each writer is imported when it is used: they bring CAD and plotting libraries along.


def _design(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.json_file import write_design

    write_design(content.design, target)


def _parameters(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.toml_file import write_parameters

    write_parameters(content.design, target)


def _frame(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.toml_file import write_frame

    write_frame(content.design, target)


def _pieces(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.tables import write_pieces

    write_pieces(content.design, target)


def _cut_plan(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.tables import write_cut_plan

    write_cut_plan(content.design, target)


def _buying_list(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.tables import write_buying_list

    write_buying_list(content.design, target)


def _elevations(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.dxf import write_dxf

    write_dxf(content.drawings.elevations, target, content.design.workshop.drafting.dxf)


def _layout(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.dxf import write_dxf

    write_dxf(content.drawings.layout, target, content.design.workshop.drafting.dxf)


def _sheets(content: Content, target: BinaryIO) -> None:
    _pages(content.drawings.sheets, "shop sheets", content.design.frame.name, target)


def _labels(content: Content, target: BinaryIO) -> None:
    _pages(content.drawings.labels, "labels", content.design.frame.name, target)


def _pages(sheets: Sequence[Sheet], what: str, name: str, target: BinaryIO) -> None:
    from tubeframe._version import __version__
    from tubeframe.output.pdf import write_pdf

    write_pdf(sheets, target, title=f"{name}: {what}", author=f"tubeframe {__version__}", subject=name)


def _step(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.step_file import write_step

    write_step(content.model, target)


def _glb(content: Content, target: BinaryIO) -> None:
    from tubeframe.output.glb import write_glb

    write_glb(content.model, target)


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

ALL_FILES = tuple(_FILES)
"""The names of all files, but for the pictures of the sheets."""
