"""What a frame would cost of other tubes, where their prices are known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tubeframe.fabrication.buying import clamps, known_total, unpriced
from tubeframe.fabrication.fitting_count import count_fittings
from tubeframe.fabrication.tallying import tally_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.joints.joint import Joint
    from tubeframe.parts.piece import Parts


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeCost:
    """What a frame of a tube costs: how many sticks and their price, and the fittings with their spares.

    `unpriced` are the lines of fittings whose price nobody told; `chosen` marks the tube that the frame is made of.
    """

    tube: str
    name: str
    sticks: int
    sticks_cost: float
    fittings_cost: float
    unpriced: int
    chosen: bool

    @property
    def cost(self) -> float:
        """What is known of sticks and fittings together."""
        return self.sticks_cost + self.fittings_cost


def priced_tubes(workshop: Workshop) -> tuple[str, ...]:
    """Return the tubes whose sticks all have a price, thinnest first as the catalogue has them."""
    bought = {t.key: [s for s in workshop.sticks(t.key) if s.bought] for t in workshop.catalog.tubes}
    return tuple(key for key, sticks in bought.items() if sticks and all(s.price is not None for s in sticks))


def size_cost(tube: str, parts: Parts, joints: Sequence[Joint], workshop: Workshop, *, chosen: bool) -> SizeCost:
    """Reckon up a frame of a tube.

    Raises:
        PlanError: when a piece comes out of no stick, or it is not proved that no plan costs less.

    """
    tally = tally_of(parts, workshop)
    fittings = tuple(clamps(count_fittings(joints, workshop), workshop))
    return SizeCost(
        tube=tube,
        name=workshop.catalog.tube(tube).name,
        sticks=tally.sticks,
        sticks_cost=tally.cost,
        fittings_cost=known_total(fittings) or 0.0,
        unpriced=len(unpriced(fittings)),
        chosen=chosen,
    )


def size_document(size: SizeCost) -> dict[str, Any]:
    """Turn a reckoning into plain values."""
    return {
        "tube": size.tube,
        "sticks": size.sticks,
        "sticks_cost": round(size.sticks_cost, 4),
        "fittings_cost": round(size.fittings_cost, 4),
        "unpriced": size.unpriced,
        "chosen": size.chosen,
    }
