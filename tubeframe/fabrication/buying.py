"""What has to be bought."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.stakes import stake_lots
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.measured import Sizes
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.cutting.plan import CutPlan
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Joint
    from tubeframe.parts.piece import PanelGroup, Parts


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """One line of the buying list; `price` is for one, None when unknown; `spare` is a piece more to have at hand."""

    item: str
    quantity: int
    unit: str
    price: float | None = None
    spare: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingCount:
    """How many fittings of a kind, for tubes of which size."""

    kind: str
    sizes: Sizes
    tubes: str
    quantity: int
    bolts: int


def count_fittings(joints: Sequence[Joint], workshop: Workshop) -> tuple[FittingCount, ...]:
    """Count fittings by kind and tube size, in the catalogue's order."""
    counted = Counter((j.kind, j.fitting.sizes, _tube_names(j, workshop)) for j in joints if j.fitting)
    bolts = {k.key: k.bolts for k in workshop.catalog.kinds}
    order = {k.key: n for n, k in enumerate(workshop.catalog.kinds)}
    return tuple(
        FittingCount(kind=kind, sizes=sizes, tubes=tubes, quantity=number, bolts=bolts[kind])
        for (kind, sizes, tubes), number in sorted(
            counted.items(), key=lambda entry: (order[entry[0][0]], entry[0][2], entry[0][1])
        )
    )


def buying_list(
    frame: Frame, parts: Parts, fittings: Sequence[FittingCount], plan: CutPlan | None, workshop: Workshop
) -> tuple[Purchase, ...]:
    """List sticks, fittings, stakes, boards and the rest; pieces that lie in the garage are not bought."""
    return (
        *_sticks(plan, workshop),
        *_fittings(fittings, workshop),
        *_stakes(parts, workshop),
        *(_board(g, workshop) for g in parts.panel_groups),
        *(Purchase(item=s.item, quantity=s.quantity, unit=s.unit) for s in frame.supplies),
    )


def known_total(purchases: Sequence[Purchase]) -> float | None:
    """Add up the prices that are known; None when none is."""
    known = [p.price * p.quantity for p in purchases if p.price is not None]
    return sum(known) if known else None


def board_name(group: PanelGroup, workshop: Workshop) -> str:
    """Name a board by mark, use, material and size."""
    board = group.first
    sizes = (board.thickness, board.length, board.width)
    shown = " x ".join(format_length(s, workshop.units) for s in sizes)
    return f"{group.mark} {board.use.word}, {workshop.catalog.material(board.material).name}, {shown}"


def _tube_names(joint: Joint, workshop: Workshop) -> str:
    names = {t.outside: t.name for t in workshop.catalog.tubes}
    outsides = sorted({p.outside for p in joint.fitting.ports}, reverse=True) if joint.fitting else []
    return " x ".join(names[o] for o in outsides)


def _sticks(plan: CutPlan | None, workshop: Workshop) -> Iterator[Purchase]:
    if plan is None:
        return
    counted = Counter((s.tube, s.stock_length, s.price) for s in plan.sticks if not s.on_hand)
    for (tube, length, price), number in counted.items():
        name = workshop.catalog.tube(tube).name
        yield Purchase(
            item=f"stick {name}, {format_length(length, workshop.units)}", quantity=number, unit="pcs", price=price
        )


def _fittings(fittings: Sequence[FittingCount], workshop: Workshop) -> Iterator[Purchase]:
    for count in fittings:
        on_hand, price = (workshop.measured.value(count.kind, count.sizes, key) for key in ("on_hand", "price"))
        needed = max(0, count.quantity - int(on_hand or 0))
        bolts = f", with {count.bolts} bolts" if count.bolts else ""
        yield Purchase(
            item=f"{count.kind} for {count.tubes}{bolts}",
            quantity=needed,
            unit="pcs",
            price=price,
            spare=1,
        )


def _stakes(parts: Parts, workshop: Workshop) -> Iterator[Purchase]:
    for lot in stake_lots(parts, workshop):
        if lot.stake is None:
            yield Purchase(item=f"ground stake that slides into {lot.tube}", quantity=lot.quantity, unit="pcs")
            continue
        length = format_length(lot.length, workshop.units)
        yield Purchase(item=f"ground stake, {lot.stake.rod}, {length}", quantity=lot.quantity, unit="pcs")
        pin = format_length(lot.stake.pin_diameter, workshop.units)
        yield Purchase(item=f"cross pin {pin} for a stake, with keeper", quantity=lot.quantity, unit="pcs", spare=1)


def _board(group: PanelGroup, workshop: Workshop) -> Purchase:
    return Purchase(item=board_name(group, workshop), quantity=group.quantity, unit="pcs")
