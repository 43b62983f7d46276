"""Build every example of the gallery anew, and its index: `python -m tests.gallery.regenerate`."""

from __future__ import annotations

from pathlib import Path

from tubeframe.cli.request import Asked, read_request
from tubeframe.design import Design, make_design
from tubeframe.drawing.drawings import Drawings
from tubeframe.geometry.units import format_length
from tubeframe.inputs.parameters_file import read_parameters
from tubeframe.output.pdf import write_pdf
from tubeframe.output.png import write_png
from tubeframe.template.registry import shipped_template

GALLERY = Path(__file__).parents[2] / "gallery"


def examples() -> list[Path]:
    """Return the parameters file of every example, by name."""
    return sorted(GALLERY.glob("*/parameters.toml"))


def design_of(parameters: Path) -> Design:
    """Design an example from its parameters file."""
    template = shipped_template(read_parameters(parameters).template)
    asked = Asked(template=template, values={}, parameters_file=parameters, workshop_file=None, shop={})
    request = read_request(asked)
    return make_design(request.frame, request.workshop, request.source)


def index() -> str:
    """Write the index: a picture and the numbers of every example."""
    parts = [
        "# Gallery",
        "",
        "Every example is built from its `parameters.toml`; sheets and pictures are generated.",
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
            f"{size}; {len(design.parts.pieces)} tubes, {sticks} sticks, "
            f"{sum(f.quantity for f in design.fabrication.fittings)} fittings. "
            f"[Sheets]({name}/sheets.pdf), [parameters]({name}/parameters.toml)",
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
