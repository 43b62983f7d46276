from __future__ import annotations

import math

import pytest

from tests.building import design_of, greenhouse, table
from tubeframe.frame.member import EndKind
from tubeframe.parts.marks import Shape, shape_of
from tubeframe.parts.piece import Hand

JOINTS = (EndKind.JOINT, EndKind.JOINT)


def _shape(*marks, length=1000.0, ends=JOINTS):
    return Shape(size="emt-3/4", length=length, ends=ends, marks=tuple(marks))


def test_marks_go_by_falling_length():
    for design in (table(), greenhouse()):
        lengths = [round(g.first.cut_length, 2) for g in design.parts.groups]
        assert lengths == sorted(lengths, reverse=True)
        assert [g.mark for g in design.parts.groups] == [f"T{n}" for n in range(1, len(lengths) + 1)]


def test_pieces_of_a_mark_are_alike_and_every_piece_has_one():
    for design in (table(), greenhouse()):
        assert sorted(p.id for g in design.parts.groups for p in g.pieces) == sorted(p.id for p in design.parts.pieces)
        for group in design.parts.groups:
            first = shape_of(group.first)
            for piece in group.pieces:
                shape = shape_of(piece)
                assert (shape.swapped() if piece.is_reversed else shape).matches(first)


def test_swapping_twice_is_the_same_piece():
    bent = _shape((100.0, 90.0, 140.0, 0.0), (500.0, 0.0, 0.0, 30.0), (700.0, 45.0, 140.0, 90.0))

    assert bent.swapped().swapped().matches(bent)
    assert bent.mirrored().mirrored().matches(bent)


def test_swapping_measures_from_the_other_end():
    shape = _shape((100.0, 0.0, 0.0, 0.0), (300.0, 0.0, 0.0, 90.0)).swapped()

    assert [m[0] for m in shape.marks] == [700.0, 900.0]
    assert [m[3] for m in shape.marks] == [0.0, 90.0]


def test_a_bend_ends_where_it_began_from_the_other_end():
    arc = 140.0 * math.radians(45)
    (mark,) = _shape((200.0, 45.0, 140.0, 0.0)).swapped().marks

    assert mark[0] == pytest.approx(1000 - 200 - arc)


def test_a_mirror_pair_is_not_alike():
    turned = _shape((100.0, 0.0, 0.0, 0.0), (200.0, 0.0, 0.0, 90.0))

    assert not turned.matches(turned.mirrored())
    assert (
        _shape((100.0, 0.0, 0.0, 0.0), (200.0, 0.0, 0.0, 180.0))
        .mirrored()
        .matches(_shape((100.0, 0.0, 0.0, 0.0), (200.0, 0.0, 0.0, 180.0)))
    )


def test_a_is_the_lower_end():
    for piece in greenhouse().parts.pieces:
        assert piece.path.start.z <= piece.path.end.z + 0.5


def test_rolls_of_the_table_are_counted_from_the_first_fitting():
    assert all(s.roll == pytest.approx(0.0, abs=1e-6) for p in table().parts.pieces for s in p.stations[:1])


def test_no_hands_where_nothing_is_handed():
    assert all(g.hand is Hand.NONE for g in greenhouse().parts.groups)


def test_a_bent_half_needs_more_stick_than_its_cut_length():
    """2 in where the leg is straight; 8 in less the straight stub at the crown (common practice, no source)."""
    half = next(p for p in greenhouse().parts.pieces if p.id == "hoop.1.1")
    stub = (47.539 - 5.539) * math.tan(math.radians(7.5))

    assert half.allowance_a == pytest.approx(2 * 25.4)
    assert half.allowance_b == pytest.approx((8 - stub) * 25.4)


def test_equal_sizes_in_inch_and_metric_agree():
    sizes = {"length": "57in", "width": "27in", "height": "33in", "panel": "20mm", "overhang": "20mm"}
    sizes |= {"stretcher_height": "180mm", "seat": "notched", "knee": "10in"}
    inch, metric = design_of("table", **sizes), design_of("table", {"units": "mm"}, **sizes)

    for a, b in zip(inch.parts.pieces, metric.parts.pieces, strict=True):
        assert a.cut_length == pytest.approx(b.cut_length, abs=0.01)
