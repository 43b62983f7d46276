"""What stands under a buying list, in words: the sum, what is not in it, and which fittings are meant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.buying import known_total, unpriced

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.fabrication.buying import Purchase
    from tubeframe.fabrication.other_sizes import SizeCost

TRADE = (
    "Fittings are bolted clamps for tube frames and go by the tube's OUTSIDE diameter: take a tube to the shop. "
    "Connectors and couplings from the electrical shelf join conduit to boxes: they are something else and carry "
    "nothing. One spare of each fitting saves a drive."
)
SIZES_NOTE = (
    "Laid out again of each tube, with spares; * marks the tube of these sheets. A thinner tube carries less and sways "
    "more: check it before you buy."
)
_NAMED = 3


def total_words(purchases: Sequence[Purchase], currency: str) -> Iterator[str]:
    """Say what the known prices make together, and what has none."""
    total, without = known_total(purchases), unpriced(purchases)
    if total is None:
        return
    yield f"Known prices together, with spares: {total:.2f} {currency}".rstrip()
    if without:
        names = "; ".join(p.item for p in without[:_NAMED])
        more = f"; and {len(without) - _NAMED} more" if len(without) > _NAMED else ""
        yield f"Not in it, since no price is known: {names}{more}."


def size_row(size: SizeCost) -> list[str]:
    """Return a row of the table of other tubes: name, sticks, their price, that of the fittings, and both."""
    more = f" + {size.unpriced} unpriced" if size.unpriced else ""
    return [
        f"{size.name}{' *' if size.chosen else ''}",
        str(size.sticks),
        f"{size.sticks_cost:.2f}",
        f"{size.fittings_cost:.2f}{more}",
        f"{size.cost:.2f}{' at least' if size.unpriced else ''}",
    ]
