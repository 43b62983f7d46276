"""The steps, several a page and none parted: cautions, parts and tools, the picture, what is done, what is checked.

Small frames stand in columns, text under the picture; of a large frame the picture is wider, with the text beside it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import BODY, HEADING, NOTE
from tubeframe.drawing.sheets.page_blocks import LEADING, caution_box, numbered, paragraph, ticked
from tubeframe.drawing.sheets.set_out_picture import set_out_picture
from tubeframe.drawing.sheets.step_blocks import COLUMN, DETAIL, WIDE_SHARE, Block, blocks, is_large
from tubeframe.drawing.sheets.step_picture import detail_picture, step_picture
from tubeframe.words.steps import every_step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.plan import Assembly
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.isometric import PaperBox
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.words.steps import ToldStep

_HEIGHTS = tuple(float(h) for h in range(90, 42, -3))
"""Heights that pictures may have [mm]: the largest that saves a page is taken."""
_GAP = 3.0
_AFTER = 4.0
_FULL = 0.6
"""A page of steps that is left behind is so full."""


def step_pages(flow: Flow, book: PartBook, assembly: Assembly, steps: Sequence[ToldStep]) -> None:
    """Set all steps."""
    flow.section("steps")
    flow.body = NOTE
    paragraph(flow, every_step(steps))
    wide = is_large(flow, book)
    columns = 1 if wide else max(1, int((flow.width + _GAP) // (COLUMN + _GAP)))
    if not wide:
        flow.columns(columns)
    sized_blocks = [_Sized(flow, b) for b in blocks(flow, book, assembly, steps, wide=wide)]
    high = _best_height(flow, sized_blocks)
    heights = [b.height(high) for b in sized_blocks]
    last = _first_of_last_column(flow, heights, columns)
    for n, sized in enumerate(sized_blocks):
        flow.need(flow.room + 1.0 if n == last else heights[n])
        _set(flow, book, sized.lowered(high))
        flow.down(_AFTER)
    flow.across()
    flow.body = BODY


class _Sized:
    """A block with the heights of its words, measured once [mm]."""

    def __init__(self, flow: Flow, block: Block) -> None:
        self._block = block
        self._head = flow.measured(lambda beside: _head(beside, block))
        beside = block.has_picture and block.is_wide
        self._words = flow.measured(lambda b: _words(b, block), _text(flow) if beside else None)
        self._details = _details_high(flow, block) if beside else 0.0

    def lowered(self, most: float) -> Block:
        """Return the block with its picture no higher than asked, unless its details are [mm]."""
        block = self._block
        if not block.has_picture:
            return replace(block, height=0.0)
        least = 0.0 if block.is_wide else len(block.details) * DETAIL[1]
        return replace(block, height=max(least, min(block.height, most)))

    def height(self, most: float) -> float:
        """Return how high it is with a picture no higher than asked [mm]."""
        picture = self.lowered(most).height
        if self._block.is_wide and self._block.has_picture:
            return self._head + max(picture, self._details + self._words)
        return self._head + picture + self._words


def _best_height(flow: Flow, blocks: Sequence[_Sized]) -> float:
    """Return the largest height of pictures with which the steps take the fewest pages, none left half empty [mm]."""
    ends = [flow.pages_for([b.height(h) for b in blocks], _AFTER) for h in _HEIGHTS]
    fewest = min(pages for pages, _ in ends)
    chosen = [h for h, (pages, _) in zip(_HEIGHTS, ends, strict=True) if pages == fewest]
    full = [h for h, (pages, fill) in zip(_HEIGHTS, ends, strict=True) if pages == fewest and fill >= _FULL]
    return (full or chosen)[0]


def _first_of_last_column(flow: Flow, heights: Sequence[float], columns: int) -> int | None:
    """Return the step that begins the second of two columns on the last page, so that both end alike.

    None where that is no choice: with one column, or more than two.
    """
    if columns != 2:
        return None
    pages, _ = flow.pages_for(heights, _AFTER)
    starts = (n for n in range(len(heights)) if flow.pages_for(heights[: n + 1], _AFTER)[0] == pages)
    first = next(starts)
    splits = range(first + 1, len(heights))
    return min(splits, key=lambda n: max(sum(heights[first:n]), sum(heights[n:])), default=None)


def _text(flow: Flow) -> float:
    return flow.width * (1.0 - WIDE_SHARE) - _GAP


def _details_high(flow: Flow, block: Block) -> float:
    a_row = max(1, int(_text(flow) // DETAIL[0]))
    return -(-len(block.details) // a_row) * DETAIL[1]


def _set(flow: Flow, book: PartBook, block: Block) -> None:
    _head(flow, block)
    if not block.has_picture:
        _words(flow, block)
        return
    flow.put(_picture(book, block, (flow.x, flow.y - block.height, block.width, block.height)))
    if block.is_wide:
        end = flow.y - block.height
        details_high = _details_high(flow, block)
        with flow.inset(block.width + _GAP, _text(flow)):
            _details(flow, book, block, down=False)
            flow.down(details_high)
            _words(flow, block)
            end = min(end, flow.y)
        flow.y = end
    else:
        with flow.inset(block.width, flow.width - block.width):
            _details(flow, book, block, down=True)
        flow.down(block.height)
        _words(flow, block)


def _picture(book: PartBook, block: Block, box: PaperBox) -> Sequence[Mark]:
    if block.scene is not None:
        return step_picture(book, block.scene, box)
    return set_out_picture(block.feet, book.units, box)


def _details(flow: Flow, book: PartBook, block: Block, *, down: bool) -> None:
    """Draw details one under the other, or in rows."""
    wide, high = DETAIL
    a_row = 1 if down else max(1, int(flow.width // wide))
    if block.scene is None:
        return
    for n, detail in enumerate(block.details):
        x, y = flow.x + (n % a_row) * wide, flow.y - (n // a_row + 1) * high
        flow.put(detail_picture(book, detail, block.scene, (x + 1.0, y + 1.0, wide - 2.0, high - 2.0)))


def _head(flow: Flow, block: Block) -> None:
    step = block.step
    for caution in step.cautions:
        caution_box(flow, caution)
    number = f"{step.number}"
    indent = text_width(number, HEADING, bold=True) + _GAP
    lines = wrap(step.title, flow.width - indent, BODY, bold=True)
    flow.down(HEADING * 1.3)
    flow.put([Text(at=(flow.x, flow.y), text=number, height=HEADING, bold=True)])
    for n, row in enumerate(lines):
        flow.down(BODY * LEADING if n else 0.0)
        flow.put([Text(at=(flow.x + indent, flow.y), text=row, height=BODY, bold=True)])
    flow.down(1.0)
    people = "1 person" if step.hands == 1 else f"{step.hands} people"
    paragraph(flow, "; ".join(t for t in (people, step.tool, block.parts) if t) + ".")


def _words(flow: Flow, block: Block) -> None:
    flow.down(1.0)
    numbered(flow, block.step.action)
    ticked(flow, f"Check: {block.step.check}.")
