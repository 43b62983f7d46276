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
from tubeframe.drawing.sheets.page_columns import column_width
from tubeframe.drawing.sheets.page_flow import page_room
from tubeframe.drawing.sheets.set_out_picture import set_out_picture
from tubeframe.drawing.sheets.step_blocks import COLUMN, DETAIL, Block, blocks, is_large
from tubeframe.drawing.sheets.step_packing import Room, Size, packed
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

_HEIGHTS = tuple(float(h) for h in range(90, 33, -2))
"""Heights that pictures may have [mm]: in every column the largest with which its steps fit."""
_GAP = 3.0
_AFTER = 3.0


def step_pages(
    flow: Flow, book: PartBook, assembly: Assembly, steps: Sequence[ToldStep], *, below: float = 0.0
) -> None:
    """Set all steps; below the last one there is room for what ends the sheets [mm]."""
    flow.body = NOTE
    wide = is_large(flow, book)
    columns = 1 if wide else max(1, int((flow.width + _GAP) // (COLUMN + _GAP)))
    with flow.inset(0.0, column_width(flow.width, columns)):
        made = blocks(flow, book, assembly, steps, wide=wide)
        sized_blocks = [_Sized(flow, b) for b in made]
        sizes = [b.sizes() for b in sized_blocks]
    words = every_step(steps, in_parts=any(b.is_part for b in made))
    said = flow.measured(lambda beside: paragraph(beside, words))
    flow.section("steps", least=said + sizes[0][-1].height + _AFTER)
    paragraph(flow, words)
    flow.columns(columns)
    room = Room(columns=columns, first=flow.room, full=page_room(flow.paper)[1], gap=_AFTER, below=below + _AFTER)
    for n, column in enumerate(packed(sizes, room)):
        if n:
            flow.next_column()
        for sized in sized_blocks[column.first : column.end]:
            _set(flow, book, sized.lowered(_HEIGHTS[column.size]))
            flow.down(_AFTER)
    flow.across()
    flow.body = BODY


class _Sized:
    """A block in the sizes that it may have; heights of its words are measured once for each width [mm]."""

    def __init__(self, flow: Flow, block: Block) -> None:
        self._flow, self._block = flow, block
        self._head = flow.measured(lambda beside: _head(beside, block))
        self._words: dict[float, float] = {}

    def lowered(self, most: float) -> Block:
        """Return the block with its picture no higher than asked, unless its names or details are [mm].

        A picture with its text beside it gets narrower too, and leaves the text more room. The feet keep their size.
        """
        block = self._block
        if block.scene is None:
            return block
        height = max(block.least, min(block.height, most))
        return replace(block, height=height, width=block.width_at(height))

    def sizes(self) -> tuple[Size, ...]:
        """Return the sizes that it may have, one for each height of pictures."""
        return tuple(self._size(most) for most in _HEIGHTS)

    def _size(self, most: float) -> Size:
        block, wanted = self.lowered(most), self.lowered(_HEIGHTS[0]).height
        lost = 1.0 - block.height / wanted if wanted else 0.0
        if block.is_wide and block.has_picture:
            text = _text(self._flow, block)
            body = max(block.height, _details_high(text, block) + self._words_high(text))
        else:
            body = block.height + self._words_high(self._flow.width)
        return Size(height=self._head + body, lost=lost)

    def _words_high(self, width: float) -> float:
        if width not in self._words:
            self._words[width] = self._flow.measured(lambda beside: _words(beside, self._block), width)
        return self._words[width]


def _text(flow: Flow, block: Block) -> float:
    """Return how wide the text beside a picture is [mm]."""
    return flow.width - block.width - _GAP


def _details_high(width: float, block: Block) -> float:
    a_row = max(1, int(width // DETAIL[0]))
    return -(-len(block.details) // a_row) * DETAIL[1]


def _set(flow: Flow, book: PartBook, block: Block) -> None:
    _head(flow, block)
    if not block.has_picture:
        _words(flow, block)
        return
    flow.put(_picture(book, block, (flow.x, flow.y - block.height, block.width, block.height)))
    if block.is_wide:
        end = flow.y - block.height
        text = _text(flow, block)
        with flow.inset(block.width + _GAP, text):
            _details(flow, book, block, down=False)
            flow.down(_details_high(text, block))
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
    flow.down(HEADING * 1.2)
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
