"""`tubeframe measure`: a blank sheet to take along, before any number is known."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.cli.say import say
from tubeframe.geometry.units import Units
from tubeframe.output.one_file import write_whole_file
from tubeframe.template.registry import load_template, shipped_template
from tubeframe.words.measuring import MeasuringSheet, measuring_sheet

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop

_AUTHOR = "tubeframe"


def measure(
    name: Annotated[str, typer.Argument(help="a template, or the file of your own")],
    out: Annotated[Path | None, typer.Option("--out", help="the PDF to write")] = None,
    units: Annotated[str, typer.Option("--units", help="in or mm")] = "in",
    paper: Annotated[str | None, typer.Option("--paper", help="letter, a4, tabloid or a3")] = None,
) -> None:
    """Write a blank measuring sheet: what to measure on the spot, and what each reading decides."""
    template = load_template(Path(name)) if name.endswith(".py") else shipped_template(name)
    shop: dict[str, str] = {"units": units, **({"paper": paper} if paper else {})}
    workshop = workshop_from_document(shop, "command line")
    path = out or Path(f"measure-{template.name}.pdf")
    sheet = measuring_sheet(template)
    write_whole_file(path, _printed(sheet, workshop))
    say(f"wrote {path}: print it and take it along, with a tape, a level and this template's --help")


def _printed(sheet: MeasuringSheet, workshop: Workshop) -> bytes:
    from tubeframe.drawing.sheets.measuring_page import measuring_pages  # they load the font's metrics
    from tubeframe.output.pdf import write_pdf

    unit = "inches" if workshop.units is Units.INCH else "millimetres"
    pages = measuring_pages(sheet, workshop.paper.size, f"all lengths in {unit}")
    target = io.BytesIO()
    write_pdf(pages, target, title=sheet.title, author=_AUTHOR, subject=sheet.title)
    return target.getvalue()
