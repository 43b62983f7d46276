"""What the studs of an end wall stand on: they cannot be slipped over stakes under a hoop that stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.shop import Shop


def thresholds(frame: FrameBuilder, width: float, studs: int, shop: Shop) -> None:
    """Buy a board across each end of a width [mm], with an anchor beside every stud and the studs' screws."""
    frame.supply(f"threshold across an end: treated board 2 x 6, {shop.show(width)}", 2)
    frame.supply("ground screw or driven anchor for a threshold, beside each stud, with its bolt", studs)
    frame.supply("screw for a stud's base flange, into its threshold", 3 * studs)
    frame.fact(
        "Thresholds",
        "let a board into the ground across each end, its top level with it, and anchor it beside every stud: in wind "
        "a stud pulls up harder than a leg. Studs are screwed on",
    )
