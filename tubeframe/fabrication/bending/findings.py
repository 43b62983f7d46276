"""What is wrong with bends as they are to be made."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog.rules import LEAST_AT_END, LEAST_BETWEEN_BENDS, is_on_shoe, takes_fitting
from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.bending.alike import bent_alike
from tubeframe.fabrication.bending.bend_facts import BendsTooNear, LargerThanShoe, ShortAtEnd, TighterThanShoe
from tubeframe.fabrication.bending.marks import SetBy
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.errors import Fact
    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.parts.piece import Parts, Piece

_ROUNDING = 0.01
_GIVE = 3.2
"""What practice wants of a straight is no sharper than 1/8 in [mm]."""


def bend_findings(parts: Parts, sheets: Sequence[BendSheet]) -> tuple[Finding, ...]:
    """Tell of radii that the bender does not make, and of straights that it cannot get hold of.

    What is bent alike is told of once.
    """
    pieces = {g.mark: g.first for g in parts.groups}
    found: list[Finding] = []
    for alike in bent_alike(sheets):
        marks = tuple(s.mark for s in alike)
        named = replace(alike[0], mark=", ".join(marks))
        found += (replace(f, subjects=marks) for f in _findings(named, pieces[marks[0]]))
    return (*found, *_arcs(sheets))


def _arcs(sheets: Sequence[BendSheet]) -> Iterator[Finding]:
    """Tell of arcs larger than the shoe: once for all of a radius on a tube size."""
    alike: dict[tuple[str, float], list[tuple[BendSheet, BendMark]]] = {}
    for sheet in sheets:
        for mark in (m for m in sheet.bends if m.set_by in {SetBy.FORM, SetBy.ROLLS}):
            alike.setdefault((sheet.tube, round(mark.radius, 2)), []).append((sheet, mark))
    for found in alike.values():
        sheet, mark = found[0]
        marks = tuple(dict.fromkeys(s.mark for s, _ in found))
        fact = LargerThanShoe(
            mark=", ".join(marks),
            radius=mark.radius,
            shoe=sheet.tool.shoe,
            made_by=mark.set_by,
            form=sheet.tool.spring.form_radius(mark.radius),
        )
        yield Finding(code="B-arc", severity=Severity.INFO, subjects=marks, fact=fact)


def _findings(sheet: BendSheet, piece: Piece) -> Iterator[Finding]:
    """Look at one mark; of radii that are alike, and of straights between bends, the worst is told."""
    yield from (_finding("B-radius", Severity.ERROR, sheet, f) for f in _tight(sheet))
    near = min(_near(sheet), key=lambda f: f.straight, default=None)
    if near is not None:
        yield _finding("B-between", Severity.WARNING, sheet, near)
    yield from (_finding("B-end", Severity.WARNING, sheet, f) for f in _at_ends(sheet, piece))


def _finding(code: str, severity: Severity, sheet: BendSheet, fact: Fact) -> Finding:
    return Finding(code=code, severity=severity, subjects=(sheet.mark,), fact=fact)


def _tight(sheet: BendSheet) -> Iterator[TighterThanShoe]:
    told: list[float] = []
    for mark in sheet.bends:
        is_tight = mark.radius < sheet.tool.shoe and not is_on_shoe(mark.radius, sheet.tool.shoe)
        if is_tight and all(abs(mark.radius - r) > _ROUNDING for r in told):
            told.append(mark.radius)
            yield TighterThanShoe(mark=sheet.mark, bend=mark.number, radius=mark.radius, shoe=sheet.tool.shoe)


def _near(sheet: BendSheet) -> Iterator[BendsTooNear]:
    for mark, following in pairwise(sheet.bends):
        if SetBy.ARROW not in {mark.set_by, following.set_by}:
            continue
        straight = following.start - mark.start - mark.length
        if straight < LEAST_BETWEEN_BENDS - _GIVE:
            yield BendsTooNear(mark=sheet.mark, bend=mark.number, straight=straight, least=LEAST_BETWEEN_BENDS)


def _at_ends(sheet: BendSheet, piece: Piece) -> Iterator[ShortAtEnd]:
    """Look at ends that no clamp holds: a clamp's own straight is told where joints are looked at.

    A cutter runs on a wide arc as well.
    """
    first, last = piece.bends[0], piece.bends[-1]
    straights = (first.start_from_a, piece.cut_length - last.start_from_a - last.length)
    kinds, radii = (piece.end_a.kind, piece.end_b.kind), (first.radius, last.radius)
    for end, kind, straight, radius in zip(TubeEnd, kinds, straights, radii, strict=True):
        if kind is EndKind.JOINT or takes_fitting(radius, LEAST_AT_END):
            continue
        if straight < LEAST_AT_END - _GIVE:
            yield ShortAtEnd(mark=sheet.mark, end=end, straight=straight, least=LEAST_AT_END)
