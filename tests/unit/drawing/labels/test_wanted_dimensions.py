"""What is worth measuring: named by the meaning of the frame, each once."""

from __future__ import annotations

import pytest

from tests.building import design_of, greenhouse, inches, table
from tubeframe.drawing.labels.wanted_dimensions import Named, Side, wanted
from tubeframe.drawing.shapes.plane import Axis
from tubeframe.drawing.views.part_book import part_book


def _shown(design, named, side):
    return [round(inches(w.length), 4) for w in wanted(part_book(design))[named] if w.side is side]


def test_a_tables_front():
    """57 in wide over the legs of 0.922 in; top at 33, rails half a tube and a strip under it, stretchers at 7."""
    assert _shown(table(), Named.FRONT, Side.BELOW) == [57.0, round(57.0 - 2 * 0.922, 4)]
    assert _shown(table(), Named.FRONT, Side.LEFT)[0] == 33.0
    assert 7.0 in _shown(table(), Named.FRONT, Side.LEFT)


def test_a_tables_plan_says_how_large_its_top_is():
    """An inch over on each side."""
    assert _shown(table(), Named.PLAN, Side.BELOW) == [59.0]
    assert _shown(table(), Named.PLAN, Side.LEFT) == [29.0]


def test_a_top_that_is_flush_is_not_measured_again():
    flush = design_of("table", length="57in", width="27in", height="33in", overhang="0in")

    assert wanted(part_book(flush))[Named.PLAN] == ()


def test_a_greenhouse():
    """Purlins stand past the end hoops; of four equal openings between hoops one is shown."""
    assert _shown(greenhouse(), Named.FRONT, Side.BELOW)[0] == 96.0
    assert _shown(greenhouse(), Named.RIGHT_SIDE, Side.BELOW) == [144.0, pytest.approx(36 - 0.2305 - 0.922, abs=0.01)]
    assert len(wanted(part_book(greenhouse()))[Named.PLAN]) == 1
    assert _shown(greenhouse(), Named.PLAN, Side.LEFT)[0] > 144.0


def with_door():
    return design_of("greenhouse", door_width="33in", door_height="70in", bending="jig", vents="sides")


def test_what_a_door_leaves_clear_is_shown_in_front():
    """33 in wide and 70 in high as asked; the header's middle is not told again, nor what the door is made of."""
    shown = {side: _shown(with_door(), Named.FRONT, side) for side in Side}
    heights = [*shown[Side.LEFT], *shown[Side.RIGHT]]

    assert shown[Side.BELOW].count(33.0) == 1
    assert heights.count(70.0) == 1
    assert round(70 + 0.922 / 2, 4) not in heights
    assert shown[Side.BELOW] == [96.0, 33.0, round((96 - 2 * 0.922 - 33 - 2 * 0.922) / 2, 4)]


def test_what_a_side_rolls_up_by_is_shown_at_the_side():
    """A fifth of the floor: 9.6 from the base rail's middle to the rail's, less a tube."""
    assert _shown(with_door(), Named.RIGHT_SIDE, Side.LEFT) == [round(0.1 * 96 - 0.922, 4)]


@pytest.mark.parametrize("design", [table, greenhouse, with_door], ids=["table", "greenhouse", "door"])
def test_no_distance_is_shown_twice_in_all_views(design):
    shown = [
        (tuple(named.axis(w.side.axis)), round(w.low), round(w.high))
        for named in Named
        for w in wanted(part_book(design()))[named]
    ]

    assert len(shown) == len(set(shown))


@pytest.mark.parametrize("design", [table, greenhouse, with_door], ids=["table", "greenhouse", "door"])
def test_no_chain_closes(design):
    """In each direction of space: dimensions are edges between coordinates; without a loop there are fewer edges."""
    for axis in Axis:
        for named in Named:
            edges = {
                (round(w.low, 2), round(w.high, 2)) for w in wanted(part_book(design()))[named] if w.side.axis is axis
            }
            nodes = {v for e in edges for v in e}
            groups = {n: n for n in nodes}

            def root(n, groups=groups):
                return n if groups[n] == n else root(groups[n])

            for low, high in sorted(edges):
                assert root(low) != root(high)
                groups[root(low)] = root(high)


def test_heights_run_from_the_floor():
    assert all(w.low == 0.0 for w in wanted(part_book(table()))[Named.FRONT] if w.side is Side.LEFT)


def test_middles_know_where_their_tubes_are():
    """The lower stretchers of a table span it, to the legs' outsides at most."""
    (middle,) = [
        w for w in wanted(part_book(table()))[Named.FRONT] if w.side is Side.LEFT and round(inches(w.high), 3) == 7.0
    ]

    assert middle.centre is not None
    assert -0.01 <= middle.centre[0] < middle.centre[1] <= 57.0 * 25.4 + 0.01
