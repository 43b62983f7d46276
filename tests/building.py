"""Frames and designs for tests."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Design, Draft, Source, Stage, make_design
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import INCH_MM, Units
from tubeframe.template.reading import read_values, written_values
from tubeframe.template.registry import shipped_template
from tubeframe.template.shop import Shop
from tubeframe.words.findings import told

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.words.told import Told

TABLE = (("length", "57in"), ("width", "27in"), ("height", "33in"), ("braces", "none"), ("joists", "0"))
GREENHOUSE = (("width", "8ft"), ("length", "12ft"), ("height", "7ft"), ("ends", "open"))


def inches(length: float) -> float:
    """Turn millimetres into inches."""
    return length / INCH_MM


def frame_of(template: str, workshop: Workshop | None = None, **values: str) -> Frame:
    """Lay a template out."""
    shop = workshop or generic_workshop()
    found = shipped_template(template)
    raw = {name.replace("_", "-"): value for name, value in values.items()}
    return found.lay_out(read_values(found.parameters, raw, shop, {}), Shop(workshop=shop))


def design_of(template: str, shop: Mapping[str, object] | None = None, **values: str) -> Design:
    """Design a template's frame in a shop."""
    return make_design(*_asked(template, shop, values))


def draft_of(template: str, shop: Mapping[str, object] | None = None, **values: str) -> Draft:
    """Take a template's frame through joints and parts only."""
    return make_design(*_asked(template, shop, values), until=Stage.PARTS)


def design_of_text(*members: Mapping[str, object], units: str = "mm", **tables: object) -> Design:
    """Design a frame that is stated member by member, as in a text file."""
    document = {"schema": "tubeframe.frame/1", "name": "frame", "units": units, "member": list(members), **tables}
    workshop = workshop_from_document({"units": units}, "test")
    source = Source(template="frame.toml", parameters={}, shop={"units": units})
    return make_design(frame_from_document(document, workshop, "frame.toml"), workshop, source)


def _asked(
    template: str, shop: Mapping[str, object] | None, values: Mapping[str, str]
) -> tuple[Frame, Workshop, Source]:
    document = dict(shop or {})
    workshop = workshop_from_document(document, "test")
    found = shipped_template(template)
    raw = {name.replace("_", "-"): value for name, value in values.items()}
    read = read_values(found.parameters, raw, workshop, {})
    source = Source(template=template, parameters=written_values(read, workshop.units), shop=document)
    return found.lay_out(read, Shop(workshop=workshop)), workshop, source


@cache
def table() -> Design:
    """The table of the worked example."""
    return design_of("table", **dict(TABLE))


@cache
def greenhouse() -> Design:
    """The greenhouse of the worked example."""
    return design_of("greenhouse", **dict(GREENHOUSE))


def words_of(finding: Finding) -> Told:
    """Put a finding into words, in inches."""
    return told(finding, Units.INCH)


def exact_lengths(design: Design) -> dict[str, float]:
    """Return each tube's exact cut length [in] by its id."""
    return {p.id: inches(p.cut_length) for p in design.parts.pieces}
