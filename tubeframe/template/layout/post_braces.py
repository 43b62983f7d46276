"""Diagonals clamped to posts beside their rails: behind a frame in zigzag, or outside its ends (all in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import Vec
from tubeframe.template.layout.braces import diagonal, step_past
from tubeframe.template.layout.stations import clear_above, clear_below

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.member import MemberId
    from tubeframe.template.shop import Shop

_SWIVEL, _RAIL = "swivel-coupler", "side-outlet-tee"


@dataclass(frozen=True, slots=True, kw_only=True)
class PostBraces:
    """What braces go by: the tube, where fittings sit on the posts, and the rails that braces pass untied."""

    tube: str
    taken: tuple[float, ...]
    rails: Sequence[MemberId]

    def zigzag(self, frame: FrameBuilder, across: tuple[float, float], behind: float, shop: Shop) -> tuple[float, ...]:
        """Brace a bay behind its posts, to and fro; return how high the braces are clamped.

        Two braces, or one where the levels leave no room for two, or none.
        """
        swivel = shop.fitting(_SWIVEL, self.tube)
        found = self._to_and_fro(across[1] - across[0], shop)
        sides = (across, across[::-1])
        for n, (low, high) in enumerate(found):
            start, end = (Vec(x, behind + swivel.offset, z) for x, z in zip(sides[n], (low, high), strict=True))
            diagonal(frame, f"brace.back.{n + 1}", start, end, swivel.overhang, self.rails)
        return tuple(z for brace in found for z in brace)

    def _to_and_fro(self, width: float, shop: Shop) -> list[tuple[float, float]]:
        """Return the low and the high end of each brace."""
        lowest, highest, taken = self.taken[0], self.taken[-1], self.taken
        over = shop.fitting(_SWIVEL, self.tube).overhang
        room = step_past(shop, self.tube, _SWIVEL, Vec(width, 0.0, (highest - lowest) / 2.0))
        bottom, top = clear_above(lowest, taken, room), clear_below(highest, taken, room)
        step = step_past(shop, self.tube, _SWIVEL, Vec(width, 0.0, (top - bottom) / 2.0)) + over
        middle = clear_below((bottom + top - step) / 2.0, taken, room)
        above = clear_above(middle + step, taken, room)
        if lowest < bottom < middle - room and above + room < top < highest:
            return [(bottom, middle), (above, top)]
        return [(bottom, top)] if lowest < bottom < top - room and top < highest else []

    def ends(
        self,
        frame: FrameBuilder,
        sides: tuple[float, float],
        depth: tuple[float, float],
        heights: tuple[float, float],
        shop: Shop,
    ) -> None:
        """Brace both ends outside, from the front posts' feet to the back posts' tops, where there is room between.

        A steep brace goes on past its clamps: it keeps off the others by what it needs to pass them.

        Args:
            frame: what is braced.
            sides: the end posts' places along x [mm].
            depth: the front and back posts' places [mm].
            heights: between which a brace may be clamped [mm].
            shop: knows what the fittings need.

        """
        swivel, (front, back), (low, high) = shop.fitting(_SWIVEL, self.tube), depth, heights
        past = step_past(shop, self.tube, _SWIVEL, Vec(0.0, back - front, high - low))
        room = max(shop.pitch(_SWIVEL, _RAIL, self.tube), past)
        bottom, top = clear_above(low, self.taken, room), clear_below(high, self.taken, room)
        if top - bottom < back - front or bottom < low or top > high:
            return
        for hand, x in (("left", sides[0] - swivel.offset), ("right", sides[1] + swivel.offset)):
            diagonal(frame, f"brace.{hand}", Vec(x, front, bottom), Vec(x, back, top), swivel.overhang, self.rails)
