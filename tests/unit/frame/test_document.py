from __future__ import annotations

import tomllib

import pytest

from tests.building import TABLE, design_of, frame_of, greenhouse, table
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.design import Source, make_design
from tubeframe.errors import InputError
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.member import EndKind
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import Units
from tubeframe.words.steps import told_steps

STAND = """
schema = "tubeframe.frame/1"
name = "sign stand"
units = "in"
tube = "emt-3/4"
bend_radius = 5.539
length_along = "x"
sized_by = ["post.left"]

[[member]]
id = "post.left"
path = [[0, 0, 0], [0, 0, 60]]
ends = ["foot", "cap"]

[[member]]
id = "post.right"
path = [[30, 0, 0], [30, 0, 60]]

[[member]]
id = "rail"
path = [[0, 0, 30], [30, 0, 30]]

[[member]]
id = "hook"
path = [[0, 0, 50], {at = [0, 20, 50], radius = 7}, [0, 20, 30]]
ends = ["joint", "cap"]
tube = "emt-3/4"

[[joint]]
at = [0, 0, 30]
kind = "tee"

[[panel]]
id = "top"
corners = [[0, 0, 62], [30, 0, 62], [30, 12, 62], [0, 12, 62]]
thickness = 0.75

[[support]]
member = "post.left"
end = "a"
fixes = ["x", "y", "z"]

[[load]]
name = "use"
panel = "top"
total = "200 lb"
direction = [0, 0, -1]
"""


def _read(text):
    return frame_from_document(tomllib.loads(text), generic_workshop(), "stand.toml")


def test_a_text_frame_is_read():
    frame = _read(STAND)
    ends = {m.id: m.ends for m in frame.members}

    assert ends["post.left"] == (EndKind.FOOT, EndKind.CAP)
    assert ends["post.right"] == (EndKind.FOOT, EndKind.CAP)
    assert ends["rail"] == (EndKind.JOINT, EndKind.JOINT)
    assert [round(b.radius / 25.4, 6) for m in frame.members for _, b in m.path.bends] == [7.0]
    assert (frame.supports[0].fixes, frame.loads[0].on) == (("x", "y", "z"), "top")
    assert frame.loads[0].total == pytest.approx(889.644, abs=1e-3)


def test_a_text_frame_goes_through_all_stages():
    workshop = generic_workshop()
    design = make_design(_read(STAND), workshop, Source(template="stand.toml", parameters={}, shop={}))
    kinds = {j.kind for j in design.jointed.joints}

    assert kinds == {"tee", "foot", "cap"}
    assert {p.member: p.mark for p in design.parts.pieces}["post.right"] == "T2"
    assert len(design.parts.groups) == 4


@pytest.mark.parametrize("units", list(Units))
@pytest.mark.parametrize(
    "built",
    [
        table,
        greenhouse,
        lambda: design_of("table", seat="notched"),
        lambda: design_of("greenhouse", vents="sides"),
        lambda: design_of("greenhouse", width="4ft", height="2ft", length="6ft", bending="jig"),
    ],
)
def test_written_and_read_again_it_gives_the_same_lists(units, built):
    design = built()
    document = frame_document(design.frame, units)
    again = make_design(frame_from_document(document, design.workshop, "again"), design.workshop, design.source)

    assert [(p.id, p.mark, round(p.cut_length, 6)) for p in again.parts.pieces] == [
        (p.id, p.mark, round(p.cut_length, 6)) for p in design.parts.pieces
    ]
    assert again.fabrication.buying == design.fabrication.buying
    assert [s.title for s in told_steps(again)] == [s.title for s in told_steps(design)]
    assert again.frame.cautions == design.frame.cautions
    assert again.frame.openings == design.frame.openings


def test_written_twice_it_is_the_same():
    frame = frame_of("table", **dict(TABLE))
    document = frame_document(frame, Units.INCH)

    assert frame_document(frame_from_document(document, generic_workshop(), "x"), Units.INCH) == document


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('schema = "tubeframe.frame/1"', 'schema = "other"', "schema"),
        ('name = "sign stand"', 'nam = "sign stand"', "nam"),
        ('ends = ["foot", "cap"]', 'ends = ["foot", "cup"]', "member[1].ends"),
        ("path = [[0, 0, 30], [30, 0, 30]]", "path = [[0, 0, 30]]", "member[3].path"),
        ("path = [[0, 0, 30], [30, 0, 30]]", "path = [[0, 0, 30], [0, 0, 30]]", "member[3].path[2]"),
        ("path = [[0, 0, 30], [30, 0, 30]]", 'path = [[0, 0, "x"], [30, 0, 30]]', "member[3].path[1][3]"),
        ("radius = 7", "radius = 70", "member[4].path"),
        ("radius = 7", "radus = 7", "member[4].path[2].radus"),
        ('kind = "tee"', 'kind = "tea"', "joint[1].kind"),
        ("[30, 12, 62]", "[31, 12, 62]", "panel[1].corners"),
        ("thickness = 0.75", "thickness = 0", "panel[1].thickness"),
        ('total = "200 lb"', 'total = "much"', "load[1].total"),
        ('fixes = ["x", "y", "z"]', 'fixes = ["up"]', "support[1].fixes"),
        ('sized_by = ["post.left"]', 'sized_by = ["post.top"]', "sized_by"),
        ('id = "post.right"', 'id = "post.left"', "member[2].id"),
    ],
)
def test_a_mistake_names_its_key(old, new, key):
    assert old in STAND
    with pytest.raises(InputError) as caught:
        _read(STAND.replace(old, new, 1))

    assert key in [p.key for p in caught.value.problems]
    assert all(p.where == "stand.toml" for p in caught.value.problems)


def test_a_tube_of_its_own_size_is_bent_by_its_own_shoe():
    """The file's radius is for the file's tube; a 1 in tube takes the shipped take-up of 8 in less half its diameter.

    8 - 1.163/2 = 7.4185 in (common practice, no source).
    """
    path = [[0, 0, 0], [0, 0, 40], [40, 0, 40]]
    members = [
        {"id": "thin", "path": path, "ends": ["stake", "cap"]},
        {"id": "thick", "path": [[0, 9, 0], [0, 9, 40], [40, 9, 40]], "ends": ["stake", "cap"], "tube": "emt-1"},
    ]
    document = {"schema": "tubeframe.frame/1", "name": "bows", "units": "in", "bend_radius": 5.0, "member": members}
    frame = frame_from_document(document, generic_workshop(), "bows.toml")
    radii = [m.path.bends[0][1].radius / 25.4 for m in frame.members]

    assert radii == [pytest.approx(5.0), pytest.approx(7.4185)]


@pytest.mark.parametrize(
    ("opening", "key"),
    [
        ('{ id = "gate", under = "top" }', "opening[1].under"),
        ('{ id = "gate", under = "bar", over = "sill" }', "opening[1].over"),
        ('{ id = "gate", under = "bar", between = ["post.left"] }', "opening[1].between"),
        ('{ id = "gate", under = "bar", between = ["post.left", "post.rite"] }', "opening[1].between"),
    ],
)
def test_an_opening_lies_between_tubes_that_are_there(opening, key):
    with pytest.raises(InputError) as caught:
        _read(f"opening = [{opening}]\n{STAND}")

    assert key in [p.key for p in caught.value.problems]
