"""The buying list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor
from tubeframe.drawing.model.lettering import BODY, NOTE, SMALL
from tubeframe.drawing.sheets.page_blocks import TICK_BOX, Column, heading, paragraph, table
from tubeframe.words.buying import SIZES_NOTE, TRADE, size_row, total_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.fabrication.make import Fabrication
    from tubeframe.fabrication.other_sizes import SizeCost


def buying_page(flow: Flow, made: Fabrication, currency: str) -> None:
    """Set what is bought; what other tubes would cost where that is known."""
    flow.section("buying list")
    flow.body = NOTE
    _buy(flow, made, currency)
    flow.body = BODY


def _buy(flow: Flow, made: Fabrication, currency: str) -> None:
    purchases = made.buying
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
    table(flow, columns, rows, cap=NOTE)
    for n, words in enumerate(total_words(purchases, currency)):
        paragraph(flow, words, bold=not n)
    paragraph(flow, TRADE, cap=SMALL)
    if made.other_sizes:
        _other_sizes(flow, made.other_sizes, currency)


def _other_sizes(flow: Flow, sizes: Sequence[SizeCost], currency: str) -> None:
    heading(flow, "The same of other tubes")
    titles = ("Tube", "Sticks", f"Sticks {currency}".strip(), f"Fittings {currency}".strip(), "Together")
    shares = (34, 12, 18, 18, 18)
    columns = [
        Column(title=title, share=share, anchor=Anchor.RIGHT if n else Anchor.LEFT)
        for n, (title, share) in enumerate(zip(titles, shares, strict=True))
    ]
    table(flow, columns, [size_row(s) for s in sizes], cap=SMALL)
    paragraph(flow, SIZES_NOTE, cap=SMALL)


def _money(price: float | None) -> str:
    return "" if price is None else f"{price:.2f}"
