"""The buying list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor
from tubeframe.drawing.sheets.page_blocks import TICK_BOX, Column, heading, paragraph, table
from tubeframe.fabrication.buying import known_total

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.fabrication.buying import Purchase

_BAR = 6.0
_BAR_PITCH = 15.5


def buying_page(flow: Flow, purchases: Sequence[Purchase], currency: str) -> None:
    """Set the buying list."""
    flow.page("buying list")
    heading(flow, "Buy")
    priced = any(p.price is not None for p in purchases)
    columns = [
        Column(title="", share=5),
        Column(title="Qty", share=8, anchor=Anchor.RIGHT),
        Column(title="Spare", share=8, anchor=Anchor.RIGHT),
        Column(title="Item", share=62),
    ]
    columns += [Column(title=f"Each {currency}".strip(), share=12, anchor=Anchor.RIGHT)] if priced else []
    rows = [
        [
            TICK_BOX,
            str(p.quantity),
            f"+ {p.spare}" if p.spare else "",
            p.item,
            *((_money(p.price),) if priced else ()),
        ]
        for p in purchases
    ]
    table(flow, columns, rows)
    total = known_total(purchases)
    if total is not None:
        paragraph(flow, f"Known prices together: {total:.2f} {currency}", bold=True)
    paragraph(
        flow,
        "Fittings go by the tube's OUTSIDE diameter: take a tube to the shop. One spare of each fitting saves a drive.",
    )


def _money(price: float | None) -> str:
    return "" if price is None else f"{price:.2f}"
