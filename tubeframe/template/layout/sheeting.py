"""What covers a tunnel, as things to buy: pieces of film or net with what is tucked in, and what fixes them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.frame.job import Job, JobKind
from tubeframe.geometry.units import INCH_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.shop import Shop

_TUCK = 18.0 * INCH_MM
_GATHERED = 30.0 * INCH_MM
_FOLDED = 12.0 * INCH_MM
_ROUNDING = 1e-9
_CLIPS = 24.0 * INCH_MM
"""Between two snap clips; common practice, no source."""


class Sheet(StrEnum):
    """What goes over it."""

    FILM = "film"
    NET = "net"
    NONE = "none"

    @property
    def item(self) -> str:
        """What is bought."""
        return "shade net" if self is Sheet.NET else "greenhouse film, UV, 6 mil"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheeting:
    """A sheet over hoops: what it is, round a hoop from foot to foot, and the length, width and height covered [mm].

    `doors` are the width and height of doors, each with a piece of its own.
    """

    name: str
    girth: float
    length: float
    width: float
    height: float
    has_ends: bool
    doors: Sequence[tuple[float, float]] = ()

    @property
    def pieces(self) -> tuple[tuple[str, float, float], ...]:
        """What each piece is for, across and along: open ends are gathered from the long one, others folded round."""
        past = _FOLDED if self.has_ends else _GATHERED
        over = ("over the hoops", self.girth + 2.0 * _TUCK, self.length + 2.0 * past)
        end = ("an end", self.width + 2.0 * _FOLDED, self.height + _TUCK)
        doors = (("a door", w + 2.0 * _FOLDED, h + 2.0 * _FOLDED) for w, h in self.doors)
        return (over, *((end,) * 2 if self.has_ends else ()), *doors)

    @property
    def clips(self) -> int:
        """How many clips hold it: on both base rails, both end hoops, and round each door."""
        edges = [self.length] * 2 + [self.girth] * 2 + [2.0 * (w + h) for w, h in self.doors]
        return sum(math.ceil(edge / _CLIPS - _ROUNDING) for edge in edges)

    def buy(self, frame: FrameBuilder, shop: Shop) -> None:
        """Put it on the buying list and on the cover."""
        counted: dict[tuple[str, Job], int] = {}
        past = _FOLDED if self.has_ends else _GATHERED
        over = Job(kind=JobKind.COVER, lengths=(_TUCK, past, _CLIPS))
        jobs = {
            "an end": Job(kind=JobKind.COVER_ENDS, lengths=(_FOLDED,)),
            "a door": Job(kind=JobKind.COVER_DOOR, lengths=(_FOLDED,)),
        }
        for what, across, along in self.pieces:
            item = f"{self.name} for {what}, {shop.show(across)} x {shop.show(along)}"
            used = (item, jobs.get(what, over))
            counted[used] = counted.get(used, 0) + 1
        for (item, job), number in counted.items():
            frame.supply(item, number, "piece" if number == 1 else "pieces", job)
        frame.supply("snap clip to the tubes' outside, on base rails, end hoops and doors", self.clips, job=over)
        _, wide, long = self.pieces[0]
        tuck = f"{shop.show(_TUCK)} to tuck in at the sides, {shop.show(past)} at the ends"
        frame.fact("Cover", f"{shop.show(wide)} x {shop.show(long)}: {tuck}")
