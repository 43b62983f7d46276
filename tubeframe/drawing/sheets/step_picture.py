"""A step's picture: what stands in fine lines, what is new in strong ones and apart; small clamps large beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor, Text, strokes
from tubeframe.drawing.model.lettering import SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import Body
from tubeframe.drawing.shapes.plane import size_of
from tubeframe.drawing.sheets.isometric import drawn_at, fitted, in_pens
from tubeframe.drawing.sheets.joint_kinds import heads, stubs
from tubeframe.drawing.sheets.step_labels import RADIUS, Labels
from tubeframe.drawing.views.bodies import seen_box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.drawing.exploded.scene import Exploded
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Box, Transform
    from tubeframe.drawing.sheets.isometric import PaperBox
    from tubeframe.drawing.sheets.joint_kinds import JointKind
    from tubeframe.drawing.views.part_book import PartBook

_CLAMP_LEAST = 5.0
"""A clamp drawn smaller than this is drawn again, large [mm on paper]."""
_PAST = 1.3
"""Diameters of tube that are drawn past a clamp in its detail."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """A kind of fitting of a step, the new one that is drawn, and how many are new."""

    kind: JointKind
    count: int


def step_picture(book: PartBook, scene: Exploded, box: PaperBox) -> list[Mark]:
    """Draw a step in a box of the paper (left, bottom, width, height) [mm]."""
    view = scene.seeing.view
    inner = (box[0] + RADIUS, box[1] + RADIUS / 2.0, box[2] - 2.0 * RADIUS, box[3] - RADIUS)
    fit = fitted(scene.bodies, view, inner)
    items = in_pens(scene.seeing.visible, fit, scene.new)
    ways = [tuple(fit.point(view.project(p)) for p in (g.start, g.end)) for g in scene.guides]
    guides = [strokes(Pen.GUIDE, [(a, b) for a, b in ways])] if ways else []
    clamps = _clamps(book, scene, fit, view)
    return [*guides, *items, *Labels(items, fit, view, box, clamps).all(scene.names)]


def details(book: PartBook, scene: Exploded, kinds: Sequence[JointKind], room: tuple[float, float]) -> list[Detail]:
    """Return the kinds of new clamps that are too small in a picture of a width and height [mm]."""
    fit = fitted(scene.bodies, scene.seeing.view, (0.0, 0.0, room[0] - 2.0 * RADIUS, room[1] - RADIUS))
    found = []
    for kind in kinds:
        new = [j for j in kind.joints if j.id in scene.stage.added]
        if not new:
            continue
        small = max(size_of(seen_box([book.bodies[new[0].id]], scene.seeing.view))) * fit.scale < _CLAMP_LEAST
        if small:
            found.append(Detail(kind=replace(kind, shown=new[0]), count=len(new)))
    return found


def detail_picture(book: PartBook, detail: Detail, scene: Exploded, box: PaperBox) -> list[Mark]:
    """Draw one new clamp large, closed round its tubes as far as they are there, with its sign and number."""
    here = scene.stage.standing | scene.stage.new
    view, kind = scene.seeing.view, detail.kind
    fitting = Body(key=kind.shown.id, pieces=kind.shown.body)
    screws = heads(book, kind)
    tubes = [s for s, use in zip(stubs(book, kind, _PAST), kind.shown.uses, strict=True) if use.tube in here]
    bodies = [fitting, *(h.body for h in screws), *(s.body for s in tubes)]
    left, bottom, width, height = box
    head = SMALL * 1.6
    fit = fitted(bodies, view, (left, bottom, width, height - head))
    strong = {fitting.key, *(h.body.key for h in screws)}
    items, _ = drawn_at(bodies, fit, view=view, strong=strong, others=Pen.NARROW)
    text = f"{kind.sign}  {detail.count} x"
    at = (left + width / 2.0, bottom + height - SMALL)
    return [*items, Text(at=at, text=text, height=SMALL, anchor=Anchor.CENTRE, bold=True)]


def _clamps(book: PartBook, scene: Exploded, fit: Transform, view: View) -> Iterator[Box]:
    """Give the boxes of new fittings on the paper [mm]."""
    for body in scene.bodies:
        if body.key in scene.stage.added and body.key in book.joint_of and body.pieces:
            left, bottom, right, top = seen_box([body], view)
            yield (*fit.point((left, bottom)), *fit.point((right, top)))
