"""What a step's picture shows: new parts off their places, and the ways that they take."""

from __future__ import annotations

import pytest

from tests.building import design_of_text, greenhouse, table
from tubeframe.catalog.fitting import PortRole
from tubeframe.drawing.sheets.step_scene import step_scene
from tubeframe.drawing.views.part_book import part_book
from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.words.steps import told_steps

GUYED = lambda: design_of_text(  # noqa: E731  one of a row of makers
    {"id": "post", "path": [[0, 0, 0], [0, 0, 1500]], "ends": ["foot", "cap"]},
    {"id": "guy", "path": [[0, 0, 1000], [1000, 1000, 0]], "ends": ["joint", "open"]},
)
DESIGNS = {"table": table, "greenhouse": greenhouse, "guy": GUYED}


def _box(body):
    return joined([*(of_tube(t.path, t.outside) for t in body.tubes), *(of_convex(p) for p in body.pieces)])


@pytest.mark.parametrize("name", DESIGNS)
def test_new_parts_are_drawn_off_their_places_and_standing_ones_on_theirs(name):
    design = DESIGNS[name]()
    book, steps = part_book(design), told_steps(design)
    moved = 0
    for n, step in enumerate(steps):
        shifts = {m.what: m.direction * m.distance for m in step.moves}
        for body in step_scene(book, step, steps[:n]).bodies:
            by = shifts.get(body.key, Vec(0, 0, 0))
            assert _box(body).low.distance(_box(book.bodies[body.key]).low + by) < 1e-6
            moved += body.key in shifts
    assert moved


@pytest.mark.parametrize("name", DESIGNS)
def test_a_guide_runs_from_a_tubes_drawn_end_to_the_fitting_that_takes_that_end(name):
    """The cut end lies where its setback says, from the node along the tube: found without asking the port."""
    design = DESIGNS[name]()
    book, steps = part_book(design), told_steps(design)
    seen = 0
    for n, step in enumerate(steps):
        shifts = {m.what: m.direction * m.distance for m in step.moves}
        scene = step_scene(book, step, steps[:n])
        guides = list(scene.guides)
        shown = {b.key for b in scene.bodies}
        for joint in (j for j in design.jointed.joints if j.id in shown and j.fitting):
            for use in (u for u in joint.uses if u.tube in shifts and u.tube in step.tubes and u.tube in shown):
                start, end = guides.pop(0)
                place = end - shifts.get(joint.id, ORIGIN)
                assert (start - shifts[use.tube]).distance(place) < 1e-6
                if use.role is PortRole.BRANCH:
                    piece = book.piece_of[use.tube]
                    cut = min((piece.path.start, piece.path.end), key=joint.at.distance)
                    assert cut.distance(place) < 0.6
                    seen += 1
    assert seen


def test_labels_go_with_their_tubes():
    design = GUYED()
    steps = told_steps(design)
    n, step = next((n, s) for n, s in enumerate(steps) if "guy" in s.tubes)
    (move,) = [m for m in step.moves if m.what == "guy"]
    piece = design.parts.piece("guy")
    labels = {label.text: label.at[0] for label in step_scene(part_book(design), step, steps[:n]).labels}

    middle = piece.path.point(piece.cut_length / 2)
    assert labels[piece.mark].distance(middle + move.direction * move.distance) < 1e-9
