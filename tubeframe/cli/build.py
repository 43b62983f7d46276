"""`tubeframe build`: its options; what it does is loaded when it is used."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from tubeframe.cli.asked import ASKED
from tubeframe.cli.template_group import template_app
from tubeframe.output.build_files import Format

if TYPE_CHECKING:
    from tubeframe.cli.text_frame import TextFrame
    from tubeframe.template.template import AnyTemplate

_GENERAL = {
    "parameters_file": (Path | None, ("--parameters",), "a file of parameters, such as a build's parameters.toml"),
    "workshop_file": (Path | None, ("--workshop",), "your workshop file (tubeframe workshop new)"),
    "units": (str | None, ("--units",), "in or mm: what is printed, and what a bare number means"),
    "paper": (str | None, ("--paper",), "letter, a4, tabloid or a3"),
    "table": (str | None, ("--table",), "lay the full-size drawings on tables of a size, such as 4ftx8ft"),
    "projection": (str | None, ("--projection",), "first or third: where the views of elevations.dxf stand"),
    "hidden_lines": (str | None, ("--hidden-lines",), "shown, boards or left-out: hidden tubes drawn dashed"),
    "dxf": (str | None, ("--dxf",), "r2010 or r12: the release of DXF that is written"),
    **ASKED,
    "only": (str | None, ("--only",), f"only some files: {', '.join(Format)}, with commas between"),
    "out": (Path | None, ("--out",), "the folder to write; the template's name when left out"),
    "force": (bool, ("--force",), "write into a folder that holds other files"),
    "explain": (
        str | None,
        ("--explain",),
        "T3: print where its cut length comes from; J3: why that joint has its fitting",
    ),
    "repair": (bool, ("--repair",), "mend faults of joints, one after the other, by changes that were checked"),
    "sweet_spots": (bool, ("--sweet-spots",), "try near values of every length and count for what saves a stick"),
    "quiet": (bool, ("--quiet", "-q"), "say nothing but problems"),
    "as_json": (bool, ("--json",), "print the summary as JSON"),
}


def build(template: AnyTemplate | TextFrame, values: dict[str, str], options: dict[str, Any]) -> None:
    """Build a frame."""
    from tubeframe.cli.building import build as run

    run(template, values, options)


build_app = template_app("build", "Build {summary}.", _GENERAL, build)
