"""What `tubeframe bend` is asked: the shop, the tube, lengths and angles."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.cli.options import as_angle, as_length, as_name, wrong
from tubeframe.errors import InputError, shown
from tubeframe.fabrication.bending.laying import TooNearError
from tubeframe.fabrication.bending.marks import BendTool, bend_tool
from tubeframe.geometry.units import Units, format_exact, format_length
from tubeframe.inputs.workshop_text import read_workshop

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from tubeframe.errors import Problem
    from tubeframe.fabrication.bending.laying import Laid


class BendRequest:
    """Options while they are read; what is wrong with them is gathered, and told by `check`."""

    def __init__(self, workshop: Path | None, tube: str | None, units: str | None) -> None:
        """Take the shop's file, the tube and the units, as they were given."""
        self._problems: list[Problem] = []
        own = None if workshop is None else workshop_from_document(read_workshop(workshop), str(workshop))
        shop = own or generic_workshop()
        named = as_name("--units", units, [u.value for u in Units], self._problems) if units else shop.units
        self.units = Units(named)
        self._shop = shop
        known = [t.key for t in shop.catalog.tubes]
        self.tube = as_name("--tube", tube or shop.tube, known, self._problems)

    @property
    def tool(self) -> BendTool:
        """What the shop bends the tube with."""
        return bend_tool(self._shop, self.tube)

    @property
    def tube_name(self) -> str:
        """The tube as it is called."""
        return self._shop.catalog.tube(self.tube).name

    def lengths(self, given: Mapping[str, str], least: float = 1.0) -> tuple[float, ...]:
        """Read lengths of at least so much [mm], by their options."""
        found = []
        for option, text in given.items():
            before = len(self._problems)
            length = as_length(option, text, self.units, self._problems)
            if len(self._problems) == before and length < least:
                self._problems.append(wrong(option, f"{shown(text)} is too little", "write for example 6in"))
            found.append(length)
        return tuple(found)

    def angle(self, option: str, text: str, between: tuple[float, float]) -> float:
        """Read an angle between two others [degree]."""
        return as_angle(option, text, between, self._problems)

    def check(self) -> None:
        """Raise InputError with all that is wrong."""
        if self._problems:
            raise InputError(*self._problems)

    def radius_words(self) -> str:
        """Say what the tube is bent with."""
        bender = self._shop.bender(self.tube)
        stamped = f", take-up {format_length(bender.take_up, self.units)}" if bender.take_up is not None else ""
        assumed = " (assumed: measure yours)" if bender.assumed else ""
        spring = "measured" if self.tool.spring.is_measured else "assumed"
        radius = format_exact(bender.radius, self.units)
        return f"radius on the centreline {radius}{stamped}{assumed}; springback {spring}"


def answered(asked: BendRequest, lay_out: Callable[[], Laid]) -> Laid:
    """Lay out what was asked; InputError where something is wrong, or the bends have no room."""
    asked.check()
    try:
        return lay_out()
    except TooNearError as error:
        short, radius = format_exact(error.short, asked.units), format_exact(asked.tool.shoe, asked.units)
        message = f"bends of a radius of {radius} have no room: a straight is {short} too short"
        remedy = "make it higher, longer or wider, or change the angle"
        raise InputError(wrong("bend", message, remedy)) from error
