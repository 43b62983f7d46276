"""The steps, several a page and none parted: cautions, parts and tools, the picture, what is done, what is checked.

Small frames stand in columns, text under the picture; of a large frame the picture is wider, with the text beside it.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.drawing.exploded.scene import exploded
from tubeframe.drawing.exploded.stages import stages
from tubeframe.drawing.exploded.viewpoints import scale_in
from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import BODY, HEADING, NOTE
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes.plane import size_of
from tubeframe.drawing.sheets.joint_kinds import joint_kinds
from tubeframe.drawing.sheets.page_blocks import LEADING, caution_box, numbered, paragraph, ticked
from tubeframe.drawing.sheets.step_picture import Detail, detail_picture, details, step_picture
from tubeframe.drawing.views.bodies import seen_box
from tubeframe.words.listing import kind_word
from tubeframe.words.steps import every_step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.plan import Assembly
    from tubeframe.drawing.exploded.scene import Exploded
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.words.steps import ToldStep

_COLUMN = 86.0
"""Least width of a column of steps [mm]."""
_FINE_TUBE = 0.5
"""A tube drawn thinner than this in a column has its picture wider, text beside it [mm on paper]."""
_HIGH, _HIGH_WIDE, _WIDE_SHARE = 66.0, 90.0, 0.54
"""Highest picture in a column, beside text [mm], and its share of the width there."""
_HEIGHTS = tuple(float(h) for h in range(90, 42, -3))
"""Heights that pictures may have [mm]: the largest that saves a page is taken."""
_DETAIL = (23.0, 21.0)
"""Width and height of a detail [mm]."""
_GAP = 3.0
_AFTER = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Block:
    """A step to be set: its words, its picture and that one's room [mm], and the details beside it."""

    step: ToldStep
    parts: str
    scene: Exploded | None
    width: float = 0.0
    height: float = 0.0
    details: tuple[Detail, ...] = ()
    is_wide: bool = False


def step_pages(flow: Flow, book: PartBook, assembly: Assembly, steps: Sequence[ToldStep]) -> None:
    """Set all steps."""
    flow.section("steps")
    flow.body = NOTE
    paragraph(flow, every_step(steps))
    wide = _is_large(flow, book)
    if not wide:
        flow.columns(max(1, int((flow.width + _GAP) // (_COLUMN + _GAP))))
    blocks = [_Sized(flow, b) for b in _blocks(flow, book, assembly, steps, wide=wide)]
    high = _best_height(flow, blocks)
    for sized in blocks:
        block = sized.lowered(high)
        flow.need(sized.height(high))
        _set(flow, book, block)
        flow.down(_AFTER)
    flow.across()
    flow.body = BODY


def _is_large(flow: Flow, book: PartBook) -> bool:
    """Whether tubes in a picture in a column would be too thin to tell."""
    bodies = tuple(book.bodies.values())
    thinnest = min((t.outside for b in bodies for t in b.tubes), default=0.0)
    return scale_in(bodies, ISOMETRIC, (_COLUMN - _DETAIL[0], _HIGH)) * thinnest < _FINE_TUBE and flow.width > _COLUMN


def _blocks(
    flow: Flow, book: PartBook, assembly: Assembly, steps: Sequence[ToldStep], *, wide: bool
) -> Sequence[_Block]:
    kinds = joint_kinds(book)
    room = (flow.width * _WIDE_SHARE, _HIGH_WIDE) if wide else (flow.width - _DETAIL[0], _HIGH)
    found: list[_Block] = []
    views: dict[bool, View | None] = {False: None, True: None}
    for told, stage in zip(steps, stages(book, assembly), strict=True):
        lying = stage.flat is not None
        scene = exploded(book, stage, room, views[lying])
        parts = _parts(book, told, {j.id: k.sign for k in kinds for j in k.joints})
        if scene is None:
            found.append(_Block(step=told, parts=parts, scene=None, is_wide=wide))
            continue
        views[lying] = scene.seeing.view
        small = tuple(details(book, scene, kinds, room))
        width, height = _picture_size(flow, scene, small, wide=wide)
        found.append(
            _Block(step=told, parts=parts, scene=scene, width=width, height=height, details=small, is_wide=wide)
        )
    return found


def _picture_size(flow: Flow, scene: Exploded, small: Sequence[Detail], *, wide: bool) -> tuple[float, float]:
    """Return how wide and high a picture is [mm]: no higher than it needs, no lower than the details beside it."""
    across, up = size_of(seen_box(scene.bodies, scene.seeing.view))
    if wide:
        width = flow.width * _WIDE_SHARE
        return width, min(_HIGH_WIDE, width * up / max(across, 1.0) + 6.0)
    width = flow.width - (_DETAIL[0] if small else 0.0)
    return width, max(min(_HIGH, width * up / max(across, 1.0) + 6.0), len(small) * _DETAIL[1])


class _Sized:
    """A block with the heights of its words, measured once [mm]."""

    def __init__(self, flow: Flow, block: _Block) -> None:
        self._block = block
        self._head = flow.measured(lambda beside: _head(beside, block))
        beside = block.scene is not None and block.is_wide
        self._words = flow.measured(lambda b: _words(b, block), _text(flow) if beside else None)
        self._details = _details_high(flow, block) if beside else 0.0

    def lowered(self, most: float) -> _Block:
        """Return the block with its picture no higher than asked, unless its details are [mm]."""
        block = self._block
        least = 0.0 if block.is_wide else len(block.details) * _DETAIL[1]
        return replace(block, height=max(least, min(block.height, most)))

    def height(self, most: float) -> float:
        """Return how high it is with a picture no higher than asked [mm]."""
        picture = self.lowered(most).height
        if self._block.is_wide:
            return self._head + max(picture, self._details + self._words)
        return self._head + picture + self._words


def _best_height(flow: Flow, blocks: Sequence[_Sized]) -> float:
    """Return the largest height of pictures with which the steps take the fewest pages [mm]."""
    pages = [flow.pages_for([b.height(h) for b in blocks], _AFTER) for h in _HEIGHTS]
    return _HEIGHTS[pages.index(min(pages))]


def _text(flow: Flow) -> float:
    return flow.width * (1.0 - _WIDE_SHARE) - _GAP


def _details_high(flow: Flow, block: _Block) -> float:
    a_row = max(1, int(_text(flow) // _DETAIL[0]))
    return -(-len(block.details) // a_row) * _DETAIL[1]


def _set(flow: Flow, book: PartBook, block: _Block) -> None:
    _head(flow, block)
    scene = block.scene
    if scene is None:
        _words(flow, block)
        return
    box = (flow.x, flow.y - block.height, block.width, block.height)
    flow.put(step_picture(book, scene, box))
    if block.is_wide:
        end = flow.y - block.height
        details_high = _details_high(flow, block)
        with flow.inset(block.width + _GAP, _text(flow)):
            _details(flow, book, block, scene, down=False)
            flow.down(details_high)
            _words(flow, block)
            end = min(end, flow.y)
        flow.y = end
    else:
        with flow.inset(block.width, flow.width - block.width):
            _details(flow, book, block, scene, down=True)
        flow.down(block.height)
        _words(flow, block)


def _details(flow: Flow, book: PartBook, block: _Block, scene: Exploded, *, down: bool) -> None:
    """Draw details one under the other, or in rows."""
    wide, high = _DETAIL
    a_row = 1 if down else max(1, int(flow.width // wide))
    for n, detail in enumerate(block.details):
        x, y = flow.x + (n % a_row) * wide, flow.y - (n // a_row + 1) * high
        flow.put(detail_picture(book, detail, scene, (x + 1.0, y + 1.0, wide - 2.0, high - 2.0)))


def _head(flow: Flow, block: _Block) -> None:
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


def _words(flow: Flow, block: _Block) -> None:
    flow.down(1.0)
    numbered(flow, block.step.action)
    ticked(flow, f"Check: {block.step.check}.")


def _parts(book: PartBook, step: ToldStep, signs: dict[str, str]) -> str:
    """Say what is added: tubes and boards by mark, fittings by sign, small parts by kind."""
    tubes = Counter(book.piece_of[t].mark for t in step.tubes)
    boards = Counter(g.mark for g in book.parts.panel_groups for p in g.panels if p.id in step.panels)
    kinds = Counter(_fitting(book, j, signs) for j in step.joints)
    counted = [f"{n} x {what}" for counts in (tubes, boards, kinds) for what, n in counts.items()]
    return f"take {', '.join(counted)}" if counted else ""


def _fitting(book: PartBook, joint: str, signs: dict[str, str]) -> str:
    return signs.get(joint) or kind_word(book.joint_of[joint].kind)
