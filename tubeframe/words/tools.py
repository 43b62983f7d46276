"""The tools that a frame needs, each once and with its size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.step import Tool
from tubeframe.fabrication.stakes import stake_ends
from tubeframe.geometry.units import format_length
from tubeframe.words.bending import bending_tools
from tubeframe.words.boards import pilot_words

if TYPE_CHECKING:
    from tubeframe.design import Design


def tool_list(design: Design) -> tuple[str, ...]:
    """List what is taken in hand, from the first cut to the last bolt."""
    tools = {t for s in design.assembly.steps for t in s.tools}
    bolt, units = design.workshop.catalog.bolt, design.workshop.units
    sizes = dict.fromkeys(p.size for p in design.parts.pieces)
    names = [design.workshop.catalog.tube(s).name for s in sizes]
    stakes = [s for size in sizes if (s := design.workshop.catalog.stake(size))]
    bits = [format_length(stakes[0].pin_diameter, units)] if stakes and stake_ends(design.parts) else []
    bits += [pilot_words(units)] if design.fabrication.fixings else []
    diagonals = (f.diagonal for f in design.assembly.faces)
    longest = max(*(p.stick_length for p in design.parts.pieces), *diagonals, 0.0)
    rows = [
        f"tube cutter or hacksaw for {', '.join(names)}",
        "deburring tool or round file",
        f"tape, at least {format_length(longest, units)}",
        "marker",
        *bending_tools(design.fabrication.bend_sheets, {s: design.workshop.catalog.tube(s).name for s in sizes}),
        f"hex key {bolt.hex_key:g} mm" if Tool.KEY in tools else "",
        "string" if Tool.STRING in tools else "",
        "hammer" if Tool.HAMMER in tools else "",
        "soft hammer" if Tool.SOFT_HAMMER in tools else "",
        f"drill with a {' and a '.join(bits)} bit" if Tool.DRILL in tools and bits else "",
        "saw for the boards" if design.frame.panels else "",
        "screwdriver" if Tool.DRIVER in tools else "",
        "gloves and safety glasses",
    ]
    return tuple(r for r in rows if r)
