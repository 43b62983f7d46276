"""How good each step's picture is: measures after M. Agrawala and others, Designing effective step-by-step assembly
instructions, ACM Trans. Graphics 22 (2003) 828-837 (visibility, action diagrams, grouping; from memory), as numbers.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from tests.measures.silhouettes import Silhouettes
from tubeframe.assembly.step import PartKind, Work
from tubeframe.drawing.sheets.page_columns import column_width
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.sheets.step_blocks import blocks, is_large
from tubeframe.drawing.views.part_book import part_book
from tubeframe.geometry.vector import ORIGIN
from tubeframe.words.steps import told_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.design import Design
    from tubeframe.drawing.exploded.scene import Exploded
    from tubeframe.drawing.views.part_book import PartBook

_SAME = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One step: the least share seen of a new part (M1), tubes and marks added at once (M2), drawn ways that are along
    no axis, tube or mouth (M4), whether the viewer moved (M5), the largest overlap of parts drawn apart (M6), offsets
    without a guide, and parts that the worst guide crosses (M7).
    """

    step: int
    seen: float
    least_seen: str
    tubes: int
    marks: int
    odd_ways: int
    viewer_moved: bool
    overlap: float
    overlapping: tuple[str, str]
    unguided: int
    crossed: int


def measured(design: Design) -> Iterator[Measured]:
    """Measure every picture of a design as it is printed."""
    book = part_book(design)
    before = {False: None, True: None}
    for scene in _printed(design, book):
        lying = scene.stage.flat is not None
        moved = before[lying] is not None and scene.seeing.view != before[lying] and not lying
        before[lying] = scene.seeing.view
        yield _measured(book, scene, moved=moved)


def _printed(design: Design, book: PartBook) -> Iterator[Exploded]:
    """Give the scenes of the sheets, in the room that they have there."""
    flow = Flow(design.workshop.paper.size, Running(title="", units="", foot="", maker=""))
    wide = is_large(flow, book)
    if not wide:
        flow.width = column_width(flow.width, 2)
    for block in blocks(flow, book, design.assembly, told_steps(design), wide=wide):
        if block.scene is not None:
            yield block.scene


def _measured(book: PartBook, scene: Exploded, *, moved: bool) -> Measured:
    shown = Silhouettes(scene.bodies, scene.seeing.view)
    added = [o.part for o in scene.stage.operations]
    seen = {part: shown.share(part) for part in added or scene.stage.new}
    least = min(seen, key=seen.__getitem__)
    pairs = _apart(scene, added)
    worst = max(pairs, key=lambda p: shown.overlap(*p), default=("", ""))
    tubes = [book.piece_of[p].mark for p in added if p in book.piece_of]
    return Measured(
        step=scene.stage.step.number,
        seen=seen[least],
        least_seen=least,
        tubes=len(tubes),
        marks=len(set(tubes)),
        odd_ways=sum(_is_odd(book, scene, o) for o in scene.stage.operations),
        viewer_moved=moved,
        overlap=shown.overlap(*worst) if worst[0] else 0.0,
        overlapping=worst,
        unguided=_unguided(book, scene),
        crossed=max((_crossed(book, scene, shown, g) for g in scene.guides), default=0),
    )


def _apart(scene: Exploded, added: list[str]) -> list[tuple[str, str]]:
    """Parts drawn apart from each other by their own offsets."""
    off = scene.offsets
    return [(a, b) for a, b in combinations(added, 2) if off[a].distance(off[b]) > _SAME]


def _is_odd(book: PartBook, scene: Exploded, operation) -> bool:
    """A way square to no axis of the frame, not along the part, nor along a mouth that takes it."""
    way = operation.direction
    if max(abs(v) for v in way) > 0.999:
        return False
    mouths = [u.axis for e in operation.into for u in book.joint_of[e.joint].uses]
    piece = book.piece_of.get(operation.part)
    mouths += [piece.path.tangent(0.0)] if piece is not None else []
    joint = book.joint_of.get(operation.part)
    mouths += [book.piece_of[u.tube].path.tangent(0.0) for u in joint.uses] if joint is not None else []
    return not any(abs(abs(way.dot(m)) - 1.0) < 1e-3 or abs(way.dot(m)) < 1e-3 for m in mouths)


def _unguided(book: PartBook, scene: Exploded) -> int:
    """Parts off from something they go onto, with no line to it."""
    guided = {g.part for g in scene.guides}
    number = 0
    for operation in scene.stage.operations:
        own = scene.offsets[operation.part]
        if operation.kind is PartKind.PANEL:
            number += own != ORIGIN and operation.part not in guided
            continue
        for entry in operation.into:
            joint = book.joint_of[entry.joint]
            tube = next(str(u.tube) for u in joint.uses if u.port == entry.port)
            other = tube if operation.part == joint.id else str(joint.id)
            apart = own.distance(scene.offsets.get(other, ORIGIN)) > _SAME
            number += apart and operation.part not in guided
    return number


def _crossed(book: PartBook, scene: Exploded, shown: Silhouettes, guide) -> int:
    """Count parts whose silhouettes a guide runs over, but for those it joins and what these are tied to."""
    line = shown.line(guide.start, guide.end)
    joined = {guide.part, guide.to}
    for name in (guide.part, guide.to):
        joined |= {str(u.tube) for u in book.joint_of[name].uses} if name in book.joint_of else set()
    return sum(
        len(np.intersect1d(line, shown.covers[b.key])) > 2 for b in scene.bodies if b.key not in joined and b.tubes
    )


def order_faults(design: Design) -> list[str]:
    """Every part once (M10); bracing after squaring, boards and caps after tightening (M11)."""
    steps = design.assembly.steps
    added = Counter(o.part for s in steps for o in s.operations)
    parts = [p.id for p in design.parts.pieces] + [j.id for j in design.jointed.joints]
    parts += [p.id for p in design.frame.panels]
    faults = [f"{p} is added {added[p]} times" for p in parts if added[p] != 1]
    works = [s.work for s in steps]
    tight = works.index(Work.TIGHTEN)
    square = works.index(Work.SQUARE)
    faults += ["tightened before it is square"] if tight < square else []
    faults += [f"{w} too early" for n, w in enumerate(works) if w is Work.BRACE and not square < n < tight]
    faults += [f"{w} too early" for n, w in enumerate(works) if w in (Work.TOP, Work.CAPS) and n < tight]
    return faults
