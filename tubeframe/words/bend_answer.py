"""A bend that was asked for by its name, as lines to read beside the bender."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.rules import LEAST_BETWEEN_BENDS
from tubeframe.fabrication.bending.checks import Measured
from tubeframe.fabrication.bending.laying import Quantity
from tubeframe.geometry.units import format_exact, format_length
from tubeframe.words.bend_sketch import side_view, strip
from tubeframe.words.bending import degrees, hook_words, set_by_words, turn_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.fabrication.bending.checks import Check
    from tubeframe.fabrication.bending.laying import Figure, Laid
    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.geometry.units import Units

_QUANTITIES = {
    Quantity.BETWEEN: "between the marks",
    Quantity.SHRINK: "shrink",
    Quantity.TRAVEL: "travel, corner to corner",
    Quantity.TRUE_OFFSET: "true offset",
    Quantity.LEAN: "leans from the rise",
    Quantity.TAKE_UP: "take-up",
    Quantity.GAIN: "gain of a bend of 90",
    Quantity.CENTRE_SHIFT: "middle mark moves on",
    Quantity.OUTER: "middle mark to outer ones",
    Quantity.FROM_B: "or, hook toward B, arrow from B",
    Quantity.DEVELOPED: "tube that it takes",
    Quantity.ALONG: "from end A to the corner, level",
}
_CHALK = {
    Measured.CHORD: "straight from A to B",
    Measured.RISE: "farthest off that line",
    Measured.ACROSS: "end B off the line of end A's straight",
}


def answer_lines(laid: Laid, about: str, radius: str, units: Units) -> Iterator[str]:
    """Say how a tube is bent: marks, exact figures beside the trade's, what is measured.

    Args:
        laid: what was laid out.
        about: what was asked for, and of which tube.
        radius: what it is bent with.
        units: what lengths are printed in.

    """
    sheet = laid.sheet
    yield about
    yield radius
    yield ""
    yield from strip(sheet)
    yield ""
    yield from side_view(laid.path)
    yield ""
    for mark in sorted(sheet.bends, key=lambda m: m.order):
        yield _mark_line(mark, units)
    yield ""
    trade = any(f.trade is not None for f in laid.figures)
    yield f"{'':32}{'exact':>12}{'the trade reckons' if trade else '':>20}".rstrip()
    yield from (_figure_line(f, units) for f in laid.figures)
    yield ""
    yield from (line for c in sheet.checks if (line := _check_line(c, units)))
    yield from _short_straight(laid, units)
    yield "all measured along the tube's middle; calculated, not tested: make a trial bend first"


def _mark_line(mark: BendMark, units: Units) -> str:
    hook = f", hook toward {hook_words(mark)}"
    turned = f", tube turned {turn_words(mark.roll)}" if round(mark.roll) % 360 else ""
    return (
        f"bend {mark.number}: mark at {format_length(mark.at, units)} ({format_exact(mark.at, units)}) from A; "
        f"{set_by_words(mark)} on it{hook}; bend {degrees(mark.angle)}, pull to {degrees(mark.reading)}{turned}"
    )


def _figure_line(figure: Figure, units: Units) -> str:
    if figure.of is Quantity.LEAN:
        return f"{_QUANTITIES[figure.of]:32}{degrees(figure.exact):>12}"
    trade = "" if figure.trade is None else format_length(figure.trade, units)
    return f"{_QUANTITIES[figure.of]:32}{format_exact(figure.exact, units):>12}{trade:>20}".rstrip()


def _check_line(check: Check, units: Units) -> str:
    length = format_length(check.distance, units)
    if check.measured is Measured.RUNNING:
        return f"check, bend {check.bend} made: {length} straight from A to the next mark, or to the other end"
    if check.measured in _CHALK:
        return f"check: {length} {_CHALK[check.measured]}"
    if check.measured is Measured.ANGLE_SLIP:
        return f"10° short at bend {check.bend} puts end B off by {length}"
    if check.measured is Measured.TURN_SLIP:
        return f"turned 10° wrong for bend {check.bend}, end B is off by {length}"
    return ""


def _short_straight(laid: Laid, units: Units) -> Iterator[str]:
    if laid.least_straight is not None and laid.least_straight < LEAST_BETWEEN_BENDS:
        have, want = (format_length(v, units) for v in (laid.least_straight, LEAST_BETWEEN_BENDS))
        yield f"note: {have} of straight between two bends; a hand bender wants about {want} for its hook"
