"""Where the outlines of tubes are drawn: lines are looked up, not gone through."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.bays import rack_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.design import Source, Stage, make_design
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.scene import FRONT
from tubeframe.drawing.views.centrelines import centrelines
from tubeframe.drawing.views.part_book import part_book
from tubeframe.drawing.views.side_views import LinesAlong, SideView
from tubeframe.drawing.views.view_lines import view_lines


@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0, 200.0])
def test_the_stretches_of_an_outline_are_found_at_any_angle(turn):
    """A tube of radius 5 from (3, 4): lines beside it from 10 to 20 and from 40 to 70 along it, and others off it."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def at(along, off):
        return (3.0 + c * along - s * off, 4.0 + s * along + c * off)

    side = SideView(start=at(0.0, 0.0), end=at(100.0, 0.0), radius=5.0)
    pairs = [(10, 5, 20, 5), (70, 5, 40, 5), (10, -5, 90, -5), (0, 5.2, 100, 5.2), (15, 5, 15, 0), (30, 5, 35, 9)]
    lines = LinesAlong(np.array([[at(a, b), at(d, e)] for a, b, d, e in pairs]))

    assert lines.on_outline(side, 1.0) == [pytest.approx((10, 20)), pytest.approx((40, 70))]
    assert lines.on_outline(side, -1.0) == [pytest.approx((10, 90))]


def _looked_at(monkeypatch, bays):
    draft = make_design(
        rack_of(bays), generic_workshop(), Source(template="rack", parameters={}, shop={}), until=Stage.PARTS
    )
    book, count = part_book(draft), 0
    real = LinesAlong.near

    def near(self, way, off):
        nonlocal count
        found = real(self, way, off)
        count += len(found)
        return found

    monkeypatch.setattr(LinesAlong, "near", near)
    for view in (FRONT, Named.PLAN.view):
        assert centrelines(book, view, view_lines(book, view, finest=7.0), 10)
    monkeypatch.setattr(LinesAlong, "near", real)
    return len(book.parts.pieces), count


def test_the_lines_looked_at_grow_with_the_tubes(monkeypatch):
    (few, some), (many, more) = (_looked_at(monkeypatch, bays) for bays in (6, 24))

    assert math.log(more / some) / math.log(many / few) <= 1.2
