"""Build every example of the gallery anew, and its index: `python -m tests.gallery.regenerate`."""

from __future__ import annotations

from pathlib import Path

from tubeframe.cli.request import Asked, TextFrame, read_request
from tubeframe.design import Design, make_design, with_verdicts
from tubeframe.drawing.drawings import Drawings
from tubeframe.geometry.units import format_length
from tubeframe.inputs.parameters_file import read_parameters
from tubeframe.output.pdf import write_pdf
from tubeframe.output.png import write_png
from tubeframe.template.registry import shipped_template
from tubeframe.words.verdict_table import carried_words

GALLERY = Path(__file__).parents[2] / "gallery"


def examples() -> list[Path]:
    """Return the file that every example is built from, by the example's name: parameters or a text frame."""
    return sorted((*GALLERY.glob("*/parameters.toml"), *GALLERY.glob("*/frame.toml")), key=lambda p: p.parent.name)


def design_of(path: Path) -> Design:
    """Design an example from its file."""
    if path.name == "frame.toml":
        asked = Asked(template=TextFrame(path=path), values={}, parameters_file=None, workshop_file=None, shop={})
    else:
        template = shipped_template(read_parameters(path).template)
        asked = Asked(template=template, values={}, parameters_file=path, workshop_file=None, shop={})
    request = read_request(asked)
    design = make_design(request.frame, request.workshop, request.source)
    return with_verdicts(design, request.workshop.conditions)


def _shows(path: Path) -> str:
    """Return what an example shows: its file's first line."""
    return path.read_text(encoding="utf-8").splitlines()[0].removeprefix("# ")


def index() -> str:
    """Write the index: a picture and the numbers of every example."""
    parts = [
        "# Gallery",
        "",
        "Every example is built from its `parameters.toml`, or from a text frame; sheets and pictures are generated.",
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


def regenerate() -> None:
    """Write sheets, picture and index."""
    for path in examples():
        pages = Drawings(design_of(path)).sheets
        name = path.parent.name
        with (path.parent / "sheets.pdf").open("wb") as target:
            write_pdf(pages, target, title=f"{name}: shop sheets", author="tubeframe", subject=name)
        with (path.parent / "cover.png").open("wb") as target:
            write_png(pages[0], target, dpi=60)
    (GALLERY / "index.md").write_text(index(), encoding="utf-8")


if __name__ == "__main__":
    regenerate()
