"""What has to be bought."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.measured import ALL_SIZES
from tubeframe.catalog.workshop import Bolts
from tubeframe.fabrication.fixings import SCREWS, sold_length
from tubeframe.fabrication.stakes import stake_lots
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.measured import Sizes
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.cutting.plan import CutPlan
    from tubeframe.fabrication.fitting_count import FittingCount
    from tubeframe.fabrication.fixings import Fixing
    from tubeframe.frame.frame import Frame
    from tubeframe.parts.piece import PanelGroup, Parts


_SPARE = 1
"""Of each kind and size one more at hand: a clamp strips or rolls away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """One line of the buying list; `price` is for one, None when unknown; `spare` is a piece more to have at hand."""

    item: str
    quantity: int
    unit: str
    price: float | None = None
    spare: int = 0


def buying_list(
    frame: Frame,
    parts: Parts,
    fittings: Sequence[FittingCount],
    fixings: Sequence[Fixing],
    plan: CutPlan | None,
    workshop: Workshop,
) -> tuple[Purchase, ...]:
    """List sticks, fittings, stakes, boards and the rest; pieces that lie in the garage are not bought."""
    return (
        *_sticks(plan, workshop),
        *clamps(fittings, workshop),
        *_stakes(parts, workshop),
        *(_board(g, workshop) for g in parts.panel_groups),
        *_straps(fixings, workshop),
        *(Purchase(item=s.item, quantity=s.quantity, unit=s.unit) for s in frame.supplies),
    )


def known_total(purchases: Sequence[Purchase]) -> float | None:
    """Add up the prices that are known, of spares too; None when none is."""
    known = [p.price * (p.quantity + p.spare) for p in purchases if p.price is not None]
    return sum(known) if known else None


def unpriced(purchases: Sequence[Purchase]) -> tuple[Purchase, ...]:
    """Return what has to be bought at a price that nobody told."""
    return tuple(p for p in purchases if p.price is None and p.quantity + p.spare)


def board_name(group: PanelGroup, workshop: Workshop) -> str:
    """Name a board by mark, use, material and size."""
    board = group.first
    sizes = (board.thickness, board.length, board.width)
    shown = " x ".join(format_length(s, workshop.units) for s in sizes)
    return f"{group.mark} {board.use.word}, {workshop.catalog.material(board.material).name}, {shown}"


def _sticks(plan: CutPlan | None, workshop: Workshop) -> Iterator[Purchase]:
    if plan is None:
        return
    counted = Counter((s.tube, s.stock_length, s.price) for s in plan.sticks if not s.on_hand)
    for (tube, length, price), number in counted.items():
        name = workshop.catalog.tube(tube).name
        yield Purchase(
            item=f"stick {name}, {format_length(length, workshop.units)}", quantity=number, unit="pcs", price=price
        )


def clamps(fittings: Sequence[FittingCount], workshop: Workshop) -> Iterator[Purchase]:
    """List fittings, then the bolts of those that are bought where they come without."""
    bought = tuple(_fittings(fittings, workshop))
    yield from bought
    pairs = list(zip(fittings, bought, strict=True))
    bolts = sum(c.bolts * p.quantity for c, p in pairs)
    if workshop.bolts is Bolts.APART and any(c.bolts for c in fittings):
        spare = sum(c.bolts * p.spare for c, p in pairs)
        name = f"{workshop.catalog.bolt.name}, as long as the clamp wants, with its nut where that is loose"
        yield Purchase(item=name, quantity=bolts, unit="pcs", spare=spare)


def _fittings(fittings: Sequence[FittingCount], workshop: Workshop) -> Iterator[Purchase]:
    """List fittings of a size; what lies there of no stated size counts once, for needs first and then for spares."""
    loose = {f.kind: _on_hand(f.kind, ALL_SIZES, workshop) for f in fittings}
    left = {(f.kind, f.sizes): _on_hand(f.kind, f.sizes, workshop) - f.quantity for f in fittings}
    for wanted in (0, _SPARE):
        for (kind, sizes), have in left.items():
            given = min(max(0, wanted - have), loose[kind])
            left[kind, sizes], loose[kind] = have + given, loose[kind] - given
    for count in fittings:
        have = left[count.kind, count.sizes]
        with_or_not = "with" if workshop.bolts is Bolts.INCLUDED else "without its"
        bolts = f", {with_or_not} {count.bolts} bolt{'s' if count.bolts > 1 else ''}" if count.bolts else ""
        yield Purchase(
            item=f"{count.kind}{_angle(count, workshop)} for {count.tubes}{bolts}",
            quantity=max(0, -have),
            unit="pcs",
            price=workshop.measured.value(count.kind, count.sizes, "price"),
            spare=max(0, _SPARE - max(0, have)),
        )


def _angle(count: FittingCount, workshop: Workshop) -> str:
    """Name the angle of a kind whose branch stands slanted and does not turn."""
    kind = workshop.catalog.kind(count.kind)
    angles = [round(kind.angle_of(p)) for p in kind.ports_of(PortRole.BRANCH)] if not kind.swings else []
    slanted = [a for a in angles if a % 90]
    return f", {slanted[0]}°," if slanted else ""


def _on_hand(kind: str, sizes: Sizes, workshop: Workshop) -> int:
    """Return how many lie there, told under these very sizes."""
    return sum(m.on_hand or 0 for m in workshop.measured.rows if (m.kind, m.sizes) == (kind, sizes))


def _stakes(parts: Parts, workshop: Workshop) -> Iterator[Purchase]:
    for lot in stake_lots(parts, workshop):
        if lot.stake is None:
            yield Purchase(item=f"ground stake that slides into {lot.tube}", quantity=lot.quantity, unit="pcs")
            continue
        length = format_length(lot.length, workshop.units)
        yield Purchase(item=f"ground stake, {lot.stake.rod}, {length}", quantity=lot.quantity, unit="pcs")
        pin = format_length(lot.stake.pin_diameter, workshop.units)
        yield Purchase(item=f"cross pin {pin} for a stake, with keeper", quantity=lot.quantity, unit="pcs", spare=1)


def _straps(fixings: Sequence[Fixing], workshop: Workshop) -> Iterator[Purchase]:
    straps: Counter[str] = Counter()
    screws: Counter[float] = Counter()
    for fixing in fixings:
        straps[fixing.tube] += fixing.straps
        screws[fixing.screw] += fixing.straps * SCREWS
    for tube, number in straps.items():
        name = workshop.catalog.tube(tube).name
        yield Purchase(item=f"two-hole strap for {name}", quantity=number, unit="pcs", spare=1)
    for length, number in screws.items():
        shown = sold_length(length, workshop.units)
        yield Purchase(item=f"wood screw No. 8 x {shown}, for the straps", quantity=number, unit="pcs", spare=2)


def _board(group: PanelGroup, workshop: Workshop) -> Purchase:
    return Purchase(item=board_name(group, workshop), quantity=group.quantity, unit="pcs")
