"""Labels: one a piece, with its mark, its length and what takes its ends."""

from __future__ import annotations

from collections import Counter

from tests.building import greenhouse, table
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.shapes import Area
from tubeframe.geometry.units import format_length


def _texts(design):
    return [i for s in Drawings(design).labels for i in s.items if isinstance(i, Text)]


def test_every_piece_has_one_label():
    for design in (table(), greenhouse()):
        marks = Counter(t.text for t in _texts(design))
        items = [i for s in Drawings(design).labels for i in s.items]
        frames = [i for i in items if isinstance(i, Drawn) and isinstance(i.shape, Area)]
        for group in design.parts.groups:
            assert marks[group.mark] == group.quantity
        assert len(frames) == len(design.parts.pieces)


def test_a_label_says_the_length_and_what_takes_each_end():
    design = table()
    leg = next(g for g in design.parts.groups if any(p.member == "leg.front.left" for p in g.pieces))
    texts = _texts(design)
    at = next(t.at for t in texts if t.text == leg.mark)
    near = [t.text for t in texts if abs(t.at[1] - at[1]) < 15.0 and at[0] - 1.0 <= t.at[0] <= at[0] + 60.0]

    assert format_length(leg.first.cut_rounded, design.workshop.units) in near
    assert any(t.startswith("A  foot") for t in near)
    assert any(t.startswith("B  F") for t in near)
