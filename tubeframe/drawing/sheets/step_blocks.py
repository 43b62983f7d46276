"""What is set of each step: its words, its picture and the room that takes, the details beside it."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.step import Work
from tubeframe.drawing.exploded.near import near_stage
from tubeframe.drawing.exploded.scene import exploded
from tubeframe.drawing.exploded.stages import stages
from tubeframe.drawing.exploded.viewpoints import scale_in
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes.plane import size_of
from tubeframe.drawing.sheets.joint_kinds import joint_kinds
from tubeframe.drawing.sheets.step_picture import Detail, details
from tubeframe.drawing.views.bodies import seen_box
from tubeframe.fabrication.stakes import stake_ends
from tubeframe.words.listing import kind_word

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.plan import Assembly
    from tubeframe.drawing.exploded.scene import Exploded
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.words.steps import ToldStep

COLUMN = 86.0
"""Least width of a column of steps [mm]."""
_FINE_TUBE = 0.5
"""A tube drawn thinner than this in a column has its picture wider, text beside it [mm on paper]."""
_HIGH, _HIGH_WIDE, WIDE_SHARE = 66.0, 90.0, 0.54
"""Highest picture in a column, and beside text [mm], and its share of the width there."""
DETAIL = (23.0, 21.0)
"""Width and height of a detail [mm]."""
_NARROWEST, _NAMES_WIDE = 0.8, 20.0
"""A picture is given no less of its height as width, and so much more for its names [mm]."""
_A_NAME = 270.0
"""A name with its leader takes so much of a picture [mm²]."""
_SET_OUT = 50.0
"""Height of the picture of the feet [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A step to be set: its words, its picture and that one's room [mm], and the details beside it.

    Its picture shows a scene, or where feet are set out (from above) [mm]. Lower than `least` its names find no room
    [mm]; `aspect` is how many times as wide as high it is without names. Of a large frame it shows a part.
    """

    step: ToldStep
    parts: str
    scene: Exploded | None = None
    feet: tuple[Point, ...] = ()
    width: float = 0.0
    height: float = 0.0
    least: float = 0.0
    aspect: float = math.inf
    details: tuple[Detail, ...] = ()
    is_wide: bool = False
    is_part: bool = False

    def width_at(self, height: float) -> float:
        """Return how wide a picture of a height is, with names on both sides of it [mm]."""
        return min(self.width, height * self.aspect + _NAMES_WIDE) if self.is_wide else self.width

    @property
    def has_picture(self) -> bool:
        """Whether something is drawn."""
        return self.scene is not None or bool(self.feet)


def is_large(flow: Flow, book: PartBook) -> bool:
    """Whether tubes in a picture in a column would be too thin to tell."""
    bodies = tuple(book.bodies.values())
    thinnest = min((t.outside for b in bodies for t in b.tubes), default=0.0)
    return scale_in(bodies, ISOMETRIC, (COLUMN - DETAIL[0], _HIGH)) * thinnest < _FINE_TUBE and flow.width > COLUMN


def blocks(flow: Flow, book: PartBook, assembly: Assembly, steps: Sequence[ToldStep], *, wide: bool) -> Sequence[Block]:
    """Take every step apart and see what room it takes; `wide` where texts stand beside pictures."""
    kinds = joint_kinds(book)
    room = (flow.width * WIDE_SHARE, _HIGH_WIDE) if wide else (flow.width - DETAIL[0], _HIGH)
    found: list[Block] = []
    views: dict[bool, View | None] = {False: None, True: None}
    for told, whole in zip(steps, stages(book, assembly), strict=True):
        stage = near_stage(book, whole, room)
        lying = stage.flat is not None
        scene = exploded(book, stage, room, views[lying])
        parts = _parts(book, told, {j.id: k.sign for k in kinds for j in k.joints})
        if scene is None:
            feet = stake_ends(book.parts) if told.data.work is Work.SET_OUT else ()
            width, height = flow.width * WIDE_SHARE if wide else flow.width, _SET_OUT if feet else 0.0
            found.append(Block(step=told, parts=parts, feet=feet, width=width, height=height, is_wide=wide))
            continue
        views[lying] = scene.seeing.view
        small = tuple(details(book, scene, kinds, room))
        width, height = _picture_size(flow, scene, small, wide=wide)
        found.append(
            Block(
                step=told,
                parts=parts,
                scene=scene,
                width=width,
                height=height,
                least=min(height, max(_least(scene, width), 0.0 if wide else len(small) * DETAIL[1])),
                aspect=_aspect(scene),
                details=small,
                is_wide=wide,
                is_part=stage is not whole,
            )
        )
    return found


def _aspect(scene: Exploded) -> float:
    """Return how many times as wide as high a scene is seen."""
    across, up = size_of(seen_box(scene.bodies, scene.seeing.view))
    return max(_NARROWEST, across / max(up, 1.0))


def _least(scene: Exploded, width: float) -> float:
    """Return the least height of a picture of a width in which all names find room [mm]."""
    names = len(scene.names.marks) + len(scene.names.small) + len(scene.names.ends) / 2.0
    return names * _A_NAME / width


def _picture_size(flow: Flow, scene: Exploded, small: Sequence[Detail], *, wide: bool) -> tuple[float, float]:
    """Return how wide and high a picture is [mm]: no higher than it needs, no lower than the details beside it."""
    across, up = size_of(seen_box(scene.bodies, scene.seeing.view))
    if wide:
        width = flow.width * WIDE_SHARE
        return width, min(_HIGH_WIDE, width * up / max(across, 1.0) + 6.0)
    width = flow.width - (DETAIL[0] if small else 0.0)
    return width, max(min(_HIGH, width * up / max(across, 1.0) + 6.0), len(small) * DETAIL[1])


def _parts(book: PartBook, step: ToldStep, signs: dict[str, str]) -> str:
    """Say what is added: tubes and boards by mark, fittings by sign, small parts by kind."""
    tubes = Counter(book.piece_of[t].mark for t in step.tubes)
    boards = Counter(g.mark for g in book.parts.panel_groups for p in g.panels if p.id in step.panels)
    kinds = Counter(_fitting(book, j, signs) for j in step.joints)
    counted = [f"{n} x {what}" for counts in (tubes, boards, kinds) for what, n in counts.items()]
    return f"take {', '.join(counted)}" if counted else ""


def _fitting(book: PartBook, joint: str, signs: dict[str, str]) -> str:
    return signs.get(joint) or kind_word(book.joint_of[joint].kind)
