"""What the studs of an end wall stand on: they cannot be slipped over stakes under a hoop that stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.job import Job, JobKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.shop import Shop


def thresholds(frame: FrameBuilder, width: float, studs: Sequence[float], shop: Shop) -> None:
    """Buy a board across each end of a width, with an anchor beside every stud and the studs' screws [mm].

    `studs` are where they stand on either, from the left foot's middle.
    """
    job = Job(kind=JobKind.THRESHOLDS, lengths=tuple(studs))
    frame.supply(f"threshold across an end: treated board 2 x 6, {shop.show(width)}", 2, job=job)
    anchor = "ground screw or driven anchor for a threshold, beside each stud, with its bolt"
    frame.supply(anchor, 2 * len(studs), job=job)
    frame.supply("screw for a stud's base flange, into its threshold", 3 * 2 * len(studs), job=job)
    frame.fact(
        "Thresholds",
        "let a board into the ground across each end, its top level with it, and anchor it beside every stud: in wind "
        "a stud pulls up harder than a leg. Studs are screwed on",
    )
