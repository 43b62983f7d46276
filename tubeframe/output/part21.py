"""Making a STEP file (ISO 10303-21) the same every time: occurrence numbers and colours.

The kernel counts occurrences on through a whole process, and writes colours in the order of
addresses in memory.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.solids.model import Paint

_STYLE = (
    "STYLED_ITEM('color',(#{1}),#{item})",
    "PRESENTATION_STYLE_ASSIGNMENT((#{2}))",
    "SURFACE_STYLE_USAGE(.BOTH.,#{3})",
    "SURFACE_SIDE_STYLE('',(#{4}))",
    "SURFACE_STYLE_FILL_AREA(#{5})",
    "FILL_AREA_STYLE('',(#{6}))",
    "FILL_AREA_STYLE_COLOUR('',#{7})",
    "COLOUR_RGB('',{red},{green},{blue})",
    "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#{0}),#{context})",
)
_BREP = re.compile(r"PRODUCT\('([^']*)'|ADVANCED_BREP_SHAPE_REPRESENTATION\('',\(([^)]*)\),#(\d+)\)")
_SOLID = re.compile(r"#(\d+) = MANIFOLD_SOLID_BREP")


def numbered(text: str) -> str:
    """Count the occurrences from 1."""
    numbers = iter(range(1, 1 + text.count("NEXT_ASSEMBLY_USAGE_OCCURRENCE")))
    return re.sub(
        r"NEXT_ASSEMBLY_USAGE_OCCURRENCE\('[^']*',([^;]*);",
        lambda found: f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('{next(numbers)}',{found[1]};",
        text,
    )


def coloured(text: str, paints: Mapping[str, Paint]) -> str:
    """Give the solids of each product its colour, in the order of the file."""
    number = max(int(n) for n in re.findall(r"^#(\d+) =", text, flags=re.MULTILINE))
    records: list[str] = []
    for product, item, context in _solids(text):
        red, green, blue = paints[product].value
        numbers = [number + 1 + k for k in range(len(_STYLE))]
        words = {"item": item, "context": context, "red": red, "green": green, "blue": blue}
        records += [f"#{n} = {row.format(*numbers, **words)};" for n, row in zip(numbers, _STYLE, strict=True)]
        number = numbers[-1]
    body, end = text.rsplit("ENDSEC;", 1)
    return body + "\n".join(records) + "\nENDSEC;" + end


def _solids(text: str) -> Iterator[tuple[str, str, str]]:
    """Give product, solid and context of every solid; a product stands before its shape."""
    solids = set(_SOLID.findall(text))
    product = ""
    for found in _BREP.finditer(text):
        if found[1] is not None:
            product = found[1]
            continue
        for item in re.findall(r"\d+", found[2]):
            if item in solids:
                yield product, item, found[3]
