"""Of a long frame a step shows the neighbours of its new parts, all that they go into among them."""

from __future__ import annotations

import pytest

from tests.bays import rack_of
from tests.building import table
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.design import Source, make_design
from tubeframe.drawing.exploded.near import near_stage
from tubeframe.drawing.exploded.stages import stages
from tubeframe.drawing.views.bodies import chosen_bodies, extent_of
from tubeframe.drawing.views.part_book import part_book

ROOM = (96.0, 90.0)


@pytest.fixture(scope="module")
def long_rack():
    return make_design(rack_of(24), generic_workshop(), Source(template="t", parameters={}, shop={}))


def test_a_small_frame_is_shown_whole():
    design = table()
    book = part_book(design)
    assert all(near_stage(book, s, ROOM) is s for s in stages(book, design.assembly))


def test_what_stands_far_off_is_left_out_and_what_the_new_goes_into_is_not(long_rack):
    book = part_book(long_rack)
    reduced = 0
    for stage in stages(book, long_rack.assembly):
        near = near_stage(book, stage, ROOM)
        assert near.new == stage.new
        assert near.standing <= stage.standing
        reduced += near.standing < stage.standing
        for operation in stage.operations:
            goes_into = {str(e.joint) for e in operation.into} & stage.standing
            assert goes_into <= near.standing
    assert reduced > 10


def test_a_body_that_is_left_out_is_as_far_off_as_is_said(long_rack):
    book = part_book(long_rack)
    for stage in stages(book, long_rack.assembly):
        near = near_stage(book, stage, ROOM)
        if near is stage:
            continue
        new = extent_of(chosen_bodies(book, stage.new)).grown(600.0)
        for body in chosen_bodies(book, stage.standing - near.standing):
            box = extent_of([body])
            assert any(a > d or c > b for a, b, c, d in zip(box.low, box.high, new.low, new.high, strict=True))
