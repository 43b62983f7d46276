"""Build the gallery's examples anew, all or those named, and its index: `python -m tests.gallery.regenerate`."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.cli.request import Asked, read_request
from tubeframe.cli.text_frame import TextFrame
from tubeframe.design import Design, make_design, with_verdicts
from tubeframe.drawing.drawings import Drawings
from tubeframe.geometry.units import format_length
from tubeframe.inputs.parameters_file import read_parameters
from tubeframe.output.pdf import write_pdf
from tubeframe.output.png import write_png
from tubeframe.template.registry import load_template, shipped_template
from tubeframe.words.verdict_table import carried_words

if TYPE_CHECKING:
    from collections.abc import Sequence

GALLERY = Path(__file__).parents[2] / "gallery"


def examples() -> list[Path]:
    """Return the file that every example is built from, by its name: parameters, a text frame or its own template."""
    kinds = ("*/parameters.toml", "*/frame.toml", "*/*.py")
    return sorted((p for kind in kinds for p in GALLERY.glob(kind)), key=lambda p: p.parent.name)


def design_of(path: Path) -> Design:
    """Design an example from its file."""
    if path.name == "frame.toml":
        asked = Asked(template=TextFrame(path=path), values={}, parameters_file=None, workshop_file=None, shop={})
    elif path.suffix == ".py":
        template = load_template(path)
        asked = Asked(template=template, values={}, parameters_file=None, workshop_file=None, shop={})
    else:
        template = shipped_template(read_parameters(path).template)
        asked = Asked(template=template, values={}, parameters_file=path, workshop_file=None, shop={})
    request = read_request(asked)
    design = make_design(request.frame, request.workshop, request.source)
    return with_verdicts(design, request.workshop.conditions)


def _shows(path: Path) -> str:
    """Return what an example shows: its file's first line."""
    return path.read_text(encoding="utf-8").splitlines()[0].removeprefix("# ").strip('".')


def index() -> str:
    """Write the index: a picture and the numbers of every example."""
    parts = [
        "# Gallery",
        "",
        "Every example is built from its `parameters.toml`, a text frame or a template of its own. Sheets and pictures "
        "are generated.",
        "",
    ]
    for path in examples():
        name, design = path.parent.name, design_of(path)
        size = " x ".join(format_length(v, design.workshop.units) for v in design.overall.size)
        sticks = len(design.fabrication.plan.sticks)
        parts += [
            f"## {name}",
            "",
            f"![{name}]({name}/cover.png)",
            "",
            f"{_shows(path)}.",
            "",
            f"{size}; {len(design.parts.pieces)} tubes, {sticks} sticks, "
            f"{sum(f.quantity for f in design.fabrication.fittings)} fittings. "
            f"{' '.join(carried_words(design.verdicts, design.workshop.units))} "
            f"[Sheets]({name}/sheets.pdf), [made from]({name}/{path.name})",
            "",
        ]
    return "\n".join(parts)


def regenerate(names: Sequence[str] = ()) -> None:
    """Write sheets and pictures of the examples of some names, of all where none is named; and the index."""
    for path in (p for p in examples() if not names or p.parent.name in names):
        pages = Drawings(design_of(path)).sheets
        name = path.parent.name
        with (path.parent / "sheets.pdf").open("wb") as target:
            write_pdf(pages, target, title=f"{name}: shop sheets", author="tubeframe", subject=name)
        with (path.parent / "cover.png").open("wb") as target:
            write_png(pages[0], target, dpi=60)
    (GALLERY / "index.md").write_text(index(), encoding="utf-8")


if __name__ == "__main__":
    regenerate(sys.argv[1:])
