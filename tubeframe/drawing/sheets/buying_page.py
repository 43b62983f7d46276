"""The buying list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor
from tubeframe.drawing.model.lettering import BODY, NOTE, SMALL
from tubeframe.drawing.sheets.page_blocks import heading, paragraph, table
from tubeframe.drawing.sheets.table_columns import TICK_BOX, Column
from tubeframe.words.buying import SIZES_NOTE, TRADE, size_row, total_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.fabrication.make import Fabrication
    from tubeframe.fabrication.other_sizes import SizeCost


_TWICE = 8
"""So many rows are set in two columns where no prices stand beside them."""


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
        Column(title="", share=8),
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
    if priced or len(rows) < _TWICE:
        table(flow, columns, rows, cap=NOTE)
    else:
        _side_by_side(flow, columns, rows)
    for n, words in enumerate(total_words(purchases, currency)):
        paragraph(flow, words, bold=not n)
    paragraph(flow, TRADE, cap=SMALL)
    if made.other_sizes:
        _other_sizes(flow, made.other_sizes, currency)


def _side_by_side(flow: Flow, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
    """Set a narrow table in two columns, both equally high where there is room for that."""

    def high(part: Sequence[Sequence[str]]) -> float:
        return flow.measured(lambda beside: table(beside, columns, part, cap=NOTE))

    flow.columns(2)
    each = [high([row]) for row in rows]
    half = min(range(1, len(rows)), key=lambda n: max(sum(each[:n]), sum(each[n:])))
    fits = max(high(rows[:half]), high(rows[half:])) <= flow.room
    for n, part in enumerate((rows[:half], rows[half:]) if fits else (rows,)):
        if n:
            flow.next_column()
        table(flow, columns, part, cap=NOTE)
    flow.across()


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
