"""What a step's picture shows: new parts off their places, guides to where they go, names that go with them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.building import design_of, design_of_text, greenhouse, table
from tubeframe.assembly.step import Work
from tubeframe.catalog.fitting import PortRole
from tubeframe.drawing.exploded.scene import exploded
from tubeframe.drawing.exploded.stages import stages
from tubeframe.drawing.exploded.viewpoints import STANDING_VIEWS
from tubeframe.drawing.views.part_book import part_book
from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.vector import ORIGIN

ROOM = (100.0, 80.0)
GUYED = lambda: design_of_text(  # noqa: E731  one of a row of makers
    {"id": "post", "path": [[0, 0, 0], [0, 0, 1500]], "ends": ["foot", "cap"]},
    {"id": "guy", "path": [[0, 0, 1000], [1000, 1000, 0]], "ends": ["joint", "open"]},
)
DESIGNS = {"table": table, "greenhouse": greenhouse, "guy": GUYED}


def _scenes(design):
    book = part_book(design)
    for stage in stages(book, design.assembly):
        scene = exploded(book, stage, ROOM, None)
        if scene is not None:
            yield book, scene


def _box(body):
    return joined([*(of_tube(t.path, t.outside) for t in body.tubes), *(of_convex(p) for p in body.pieces)])


@pytest.mark.parametrize("name", DESIGNS)
def test_standing_parts_are_drawn_on_their_places_and_new_ones_off_them(name):
    """The first part of all has nothing to come apart from; nor have frames that are stood up first."""
    moved = still = 0
    for book, scene in _scenes(DESIGNS[name]()):
        for body in scene.bodies:
            off = _box(body).low - _box(book.bodies[body.key]).low
            if body.key in scene.new:
                moved, still = moved + (off.length > 50.0), still + (off.length < 1e-6)
            else:
                assert off.length < 1e-6
    assert moved > 0
    assert moved >= 2 * still or name == "guy"


def test_a_first_tube_lies_still_and_what_goes_onto_it_is_apart():
    design = table()
    _, scene = next(s for s in _scenes(design) if s[1].stage.flat is not None)
    tubes = [o.part for o in scene.stage.operations if o.part in {p.id for p in design.parts.pieces}]

    assert scene.offsets[tubes[0]] == ORIGIN
    assert all(scene.offsets[t].length > 50.0 for t in tubes[1:])


@pytest.mark.parametrize("name", DESIGNS)
def test_a_guide_runs_from_a_tubes_drawn_end_to_the_fitting_that_takes_that_end(name):
    """The cut end lies where its setback says, from the node along the tube: found without asking the port."""
    seen = 0
    for book, scene in _scenes(DESIGNS[name]()):
        for guide in (g for g in scene.guides if g.part in book.piece_of and g.to in book.joint_of):
            joint = book.joint_of[guide.to]
            use = next(u for u in joint.uses if u.tube == guide.part)
            end = guide.end - scene.offsets.get(guide.to, ORIGIN)
            path = book.piece_of[guide.part].path
            if len(path.pieces) == 1:  # the end lies on the tube's own middle line
                assert (end - path.start).across(path.tangent(0.0)).length < 0.6
            assert end.distance(joint.at) < 80.0
            if use.role is PortRole.BRANCH and guide.part in scene.stage.added:
                piece = book.piece_of[guide.part]
                cut = min((piece.path.start, piece.path.end), key=joint.at.distance)
                assert cut.distance(guide.start - scene.offsets[guide.part]) < 0.6
                seen += 1
    assert seen or name == "guy"


@pytest.mark.parametrize("name", DESIGNS)
def test_whatever_is_apart_from_what_it_goes_onto_has_a_guide(name):
    for book, scene in _scenes(DESIGNS[name]()):
        guided = {g.part for g in scene.guides}
        for operation in scene.stage.operations:
            entries = [(e, book.joint_of[e.joint]) for e in operation.into]
            others = {
                str(next(u.tube for u in j.uses if u.port == e.port)) if operation.part == j.id else str(j.id)
                for e, j in entries
            }
            own = scene.offsets[operation.part]
            apart = [o for o in others if own.distance(scene.offsets.get(o, ORIGIN)) > 1.0]
            assert not apart or operation.part in guided


def test_a_frame_on_the_floor_is_shown_alone_and_from_above():
    """Nothing that stands elsewhere is in its picture, and the viewer is on the side where its open mouths face."""
    design = table()
    for book, scene in _scenes(design):
        flat = scene.stage.flat
        if flat is None:
            continue
        members = set(flat.members)
        assert {book.piece_of[b.key].member for b in scene.bodies if b.key in book.piece_of} <= members
        toward = scene.seeing.view.to_viewer.unit
        assert abs(toward.dot(flat.plane.z)) > 0.7
        here = {b.key for b in scene.bodies}
        mouths = [
            u.axis.dot(toward)
            for j in book.joints
            if j.id in here
            for u in j.uses
            if u.tube not in here and u.end is not None and abs(u.axis.dot(flat.plane.z)) > 0.9
        ]
        assert sum(mouths) >= 0.0


def test_what_was_built_flat_is_not_drawn_as_standing_before_it_is_raised():
    design = table()
    raised: set[str] = set()
    for _, scene in _scenes(design):
        for step_raises in scene.stage.step.raises:
            raised.add(step_raises.sub_frame)
        if scene.stage.step.work is not Work.FLAT:
            flat_of = {m: f.id for f in design.assembly.flats if f.id in design.assembly.built for m in f.members}
            shown = {flat_of.get(design.parts.piece(b.key).member) for b in scene.bodies if b.tubes}
            assert {s for s in shown if s} <= raised


def test_a_viewpoint_is_kept_while_it_shows_all():
    design = greenhouse()
    book = part_book(design)
    seen = []
    before = None
    for stage in stages(book, design.assembly):
        scene = exploded(book, stage, ROOM, before)
        if scene is not None and stage.flat is None:
            before = scene.seeing.view
            seen.append(before)
    changes = sum(a != b for a, b in pairwise(seen))
    assert seen[0] == STANDING_VIEWS[0]
    assert changes <= 1 + len(seen) // 5


def test_names_go_with_their_tubes():
    design = GUYED()
    scene = next(s for _, s in _scenes(design) if "guy" in s.stage.added)
    piece = design.parts.piece("guy")
    labels = {label.text: label.at[0] for label in scene.names.marks}

    off = scene.offsets["guy"]
    assert labels[piece.mark].distance(piece.path.point(piece.cut_length / 2) + off) < 1e-9
    ends = {e.text: e.at for e in scene.names.ends if (e.at - off).distance(piece.path.start) < 1e-6}
    assert set(ends) == {"A"}


def test_of_many_boards_that_are_alike_the_first_and_the_last_are_named():
    design = design_of("table", shelf="slats")
    scene = max((s for _, s in _scenes(design)), key=lambda s: len([p for p in s.stage.added if "slat" in str(p)]))
    slats = next(g for g in design.parts.panel_groups if len(g.panels) > 4)
    assert [label.text for label in scene.names.marks].count(slats.mark) == 2
