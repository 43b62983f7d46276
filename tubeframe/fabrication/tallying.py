"""What is cut from sticks, by tube; and what the sticks cost at least, without a whole plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.plan import Need
from tubeframe.fabrication.cutting.sweet_spots import Tally

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.parts.piece import Parts, PieceGroup


def needs_of(groups: Sequence[PieceGroup], size: str) -> tuple[Need, ...]:
    """Return what the pieces of a tube size take of sticks."""
    return tuple(
        Need(mark=g.mark, length=g.first.stick_length, quantity=g.quantity) for g in groups if g.first.size == size
    )


def tally_of(parts: Parts, workshop: Workshop) -> Tally:
    """Return the least cost of all sticks, and how many are bought.

    Raises:
        PlanError: when a piece comes out of no stick, or it is not proved that no plan costs less.

    """
    from tubeframe.fabrication.cutting.planning import least_tally  # it loads the solver

    tallies = []
    for size in dict.fromkeys(g.first.size for g in parts.groups):
        tally = least_tally(needs_of(parts.groups, size), workshop.sticks(size), workshop.saw)
        if tally is None:
            message = f"the sticks of {size} are not proved"
            raise PlanError(message)
        tallies.append(tally)
    return Tally(cost=sum(t.cost for t in tallies), sticks=sum(t.sticks for t in tallies))
