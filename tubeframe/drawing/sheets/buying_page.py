"""The buying list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor
from tubeframe.drawing.model.lettering import SMALL
from tubeframe.drawing.sheets.page_blocks import TICK_BOX, Column, heading, paragraph, table
from tubeframe.words.buying import TRADE, total_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.fabrication.buying import Purchase


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
    for words in total_words(purchases, currency):
        paragraph(flow, words, bold=True)
    paragraph(flow, TRADE, cap=SMALL)


def _money(price: float | None) -> str:
    return "" if price is None else f"{price:.2f}"
