"""The bend sheet: what is bent alike once, turns, hooks, checks, and room to write."""

from __future__ import annotations

import math

import pytest

from tests.building import design_of, design_of_text, greenhouse
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, make_design
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.shapes import Arc
from tubeframe.frame.document import frame_from_document

TURNED = {"id": "arm", "path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 600, 900]], "ends": ["foot", "cap"]}
"""Up, then right, then back. At the second bend the tube runs to the right; the inside of the first bend, carried along
it, has come round to below (-z); the second bends back (+y). About the way right, right hand, -z goes to +y: 90."""
OTHER_WAY = TURNED | {"path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, -600, 900]]}
"""The second bend to the front: 270."""
FLAT = TURNED | {"path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 0, 1500]]}
"""The second bend up again, in the plane of the first and against it: 180."""


HOOP = {"id": "hoop", "path": [[0, 0, 0], [0, 0, 900], [700, 0, 900], [700, 0, 0]], "ends": ["open", "open"]}


_laid_out = {}


def _pages(design):
    """Return the pages with a bend sheet; sheets are laid out once a design."""
    if id(design) not in _laid_out:
        _laid_out[id(design)] = (design, [s for s in Drawings(design).sheets if "bend sheet" in s.title])
    return _laid_out[id(design)][1]


def _words(design):
    return " ".join(i.text for s in _pages(design) for i in s.items if isinstance(i, Text))


def _rows(design):
    """Return the rows of the table of bends: the cells right of the sketch, line by line."""
    (page,) = _pages(design)
    rows = {}
    for text in (i for i in page.items if isinstance(i, Text) and i.at[0] > page.width / 2.5):
        rows.setdefault(round(text.at[1], 3), []).append(text.text)
    return [r for r in rows.values() if r[0].isdigit() and any("°" in c for c in r)]


@pytest.mark.parametrize(("member", "turn"), [(TURNED, "90°"), (OTHER_WAY, "270°"), (FLAT, "180°")])
def test_a_bends_turn_is_printed(member, turn):
    rows = _rows(design_of_text(member))

    assert [r[-4:-1] for r in rows] == [["0°", "90°", "91.9°"], [turn, "90°", "91.9°"]]


def test_only_a_tube_bent_in_one_plane_has_chalk_lines():
    assert "along A's straight" in _words(design_of_text(FLAT))
    assert "along A's straight" not in _words(design_of_text(TURNED))
    assert "Bent in several planes" in _words(design_of_text(TURNED))
    assert "Bent in several planes" not in _words(design_of_text(FLAT))


def test_a_clock_shows_each_turn_of_a_tube_bent_in_two_planes():
    """One circle a bend, and a hand: up for the first, to the right at 90 as one looks from A to B."""
    (page,) = _pages(design_of_text(TURNED))
    circles = [i.shape for i in page.items if isinstance(getattr(i, "shape", None), Arc) and i.shape.closed]
    hands = [
        (b[0] - a[0], b[1] - a[1])
        for c in circles
        for i in page.items
        for a, b in (i.shape.segments if hasattr(getattr(i, "shape", None), "segments") else ())
        if a == c.centre
    ]

    assert len(circles) == 2
    assert [math.degrees(math.atan2(y, x)) for x, y in hands] == pytest.approx([90, 0], abs=1e-6)


def test_hooks_stand_in_the_table_where_they_differ():
    """A hoop's second bend is made from end B: the longer part lies still."""
    rows = _rows(design_of_text(HOOP))

    assert [r[2] for r in rows] == ["A", "B"]
    assert "hook as the table says" in _words(design_of_text(HOOP))


def test_hoops_that_are_bent_alike_stand_once_on_one_page():
    """10 half hoops of six marks, which differ in their clamps only; each half in 6 bends of 15 degrees."""
    design = greenhouse()
    words = _words(design)

    assert len(_pages(design)) == 1
    assert "T2, T3, T4, T5, T6, T7: 10 bent alike" in words
    assert words.count("TRIAL BEND FIRST") == 1
    rows = _rows(design)
    assert [r[0] for r in rows] == ["1", "2", "3", "4", "5", "6"]
    assert rows[0][1:] == ['43 1/2"', "15°", "15.3°", '55 3/4"']


def test_clamps_are_given_along_the_straight_tube_from_its_rough_end():
    """2 in more than from the cut end A, which the marking strip tells."""
    design = greenhouse()
    group = next(g for g in design.parts.groups if g.first.bends)
    inches = [s.from_a / 25.4 for s in group.first.stations]

    assert inches[0] == pytest.approx(3.0)
    assert f"{group.mark}: 5, " in _words(design)


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_trial_bend_has_its_numbers_and_room_to_write(units):
    """Marked at 6 in (150 mm) the stub is 12 in (150 + 152.4 = 302 mm) high, of a take-up of 6 in."""
    words = _words(design_of_text(HOOP, units=units) if units == "mm" else greenhouse())

    assert ('mark 6"' if units == "in" else "mark 150 mm") in words
    assert ('12" high' if units == "in" else "302 mm high") in words
    assert all(t in words for t in ("angle left", "stub", "marks move by", "readings by", "91.9°"))


@pytest.mark.parametrize("shape", ["round", "gothic"])
def test_the_sheet_of_a_greenhouses_hoops_is_one_page(shape):
    assert len(_pages(design_of("greenhouse", shape=shape, width="8ft", length="12ft"))) == 1


def test_what_a_slip_does_is_said():
    assert "One slip: bend 1 10° short puts B" in _words(greenhouse())


def test_a_table_longer_than_a_page_goes_on_over_pages():
    """Two quarters of 4 m radius in 32 bends of 2.8 degrees each: 64 rows, each once, on as many pages as they take."""
    corner = {"radius": 4000, "bends": 32}
    path = [[0, 0, 0], {"at": [0, 0, 4500], **corner}, {"at": [8000, 0, 4500], **corner}, [8000, 0, 0]]
    shop = {"units": "mm", "stock": [{"tube": "emt-3/4", "length": "20 m"}]}
    workshop = workshop_from_document(shop, "shop.toml")
    document = {"schema": "tubeframe.frame/1", "name": "arc", "units": "mm"}
    document["member"] = [{"id": "t", "path": path, "ends": ["open", "open"]}]
    source = Source(template="arc.toml", parameters={}, shop=shop)
    pages = _pages(make_design(frame_from_document(document, workshop, "arc.toml"), workshop, source))
    rows = [i.text for p in pages for i in p.items if isinstance(i, Text) and i.text == "2.8°"]

    assert len(pages) > 2
    assert len(rows) == 64
    assert all(i.at[1] > 12.0 for p in pages for i in p.items if isinstance(i, Text))
