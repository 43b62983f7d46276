"""Which corner to push, against frames that are pushed out of square by hand, point by point."""

from __future__ import annotations

import json
import math
import subprocess
import sys

import pytest

from tests.building import design_of, greenhouse, inches, table
from tubeframe.assembly.squaring import push_of
from tubeframe.design_document import design_document
from tubeframe.geometry.units import Units
from tubeframe.words.squaring import push_lines


@pytest.mark.parametrize("lean", [-40.0, -3.0, 0.0, 0.5, 12.0, 75.0])
def test_a_rectangle_that_leans_is_told_by_its_corners(lean):
    """The four corners of a leaning frame, its sides as long as ever, and a tape from corner to corner."""
    wide, tall = 1000.0, 700.0
    up = math.sqrt(tall**2 - lean**2)
    corners = [(0.0, 0.0), (lean, up), (wide + lean, up), (wide, 0.0)]

    push = push_of(wide, tall, math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3]))

    assert push.to_right == pytest.approx(lean, abs=1e-9)
    assert push.aim == pytest.approx(math.hypot(wide, tall))
    assert push.off_size == pytest.approx(0.0, abs=1e-9)


def test_a_3_4_5_face_by_hand():
    """4 ft wide, 3 ft high: 61 and 59 in, so (61^2 - 59^2) / (4 x 48) = 240 / 192 = 1.25 in to the right."""
    push = push_of(48.0, 36.0, 61.0, 59.0)

    assert push.to_right == pytest.approx(1.25)
    assert push.aim == pytest.approx(math.sqrt((61**2 + 59**2) / 2))


def test_the_words_name_the_corner_the_way_and_the_aim():
    """1.25 in to the right; both diagonals then read the root of the mean square, 60.0083 in."""
    inch = 25.4
    push = push_of(48.0 * inch, 36.0 * inch, 61.0 * inch, 59.0 * inch)
    (line,) = push_lines("front", 60.0 * inch, push, Units.INCH)

    assert line == 'front: push the upper right corner 1 1/4" to the left, until both diagonals read 60"'
    back = push_of(48.0 * inch, 36.0 * inch, 59.0 * inch, 61.0 * inch)
    assert 'upper left corner 1 1/4" to the right' in push_lines("front", 60.0 * inch, back, Units.INCH)[0]
    assert "nothing is to be pushed" in push_lines("front", 60.0, push_of(48.0, 36.0, 60.0, 60.0), Units.INCH)[0]


def test_diagonals_that_are_too_long_together_are_told():
    inch = 25.4
    push = push_of(48.0 * inch, 36.0 * inch, 61.0 * inch, 61.0 * inch)

    assert '1" longer than the frame\'s 60"' in push_lines("front", 60.0 * inch, push, Units.INCH)[1]


def test_faces_of_a_table_are_taken_where_a_tape_reaches():
    """Legs 57 - 0.922 in apart; the foot covers 3/4 in, the corner 1.5 x 0.922 in of the leg's 30.7655 in."""
    faces = {f.name: f for f in table().assembly.faces}

    assert list(faces) == ["floor", "front", "back", "left", "right"]
    assert inches(faces["front"].width) == pytest.approx(57 - 0.922)
    assert inches(faces["left"].width) == pytest.approx(27 - 0.922)
    assert inches(faces["front"].height) == pytest.approx(30.7655 - 0.75 - 1.5 * 0.922)
    assert inches(faces["floor"].diagonal) == pytest.approx(math.hypot(57 - 0.922, 27 - 0.922))


def test_every_corner_lies_on_its_tube_clear_of_every_fitting_on_its_ends():
    for design in (table(), greenhouse(), design_of("shelf")):
        assert design.assembly.faces
        for face in design.assembly.faces:
            for corner in face.corners:
                piece = design.parts.piece(corner.tube)
                assert piece.path.point(corner.from_a).distance(corner.at) < 1e-6
            a, b, c, d = (corner.at for corner in face.corners)
            assert a.distance(c) == pytest.approx(face.diagonal)
            assert b.distance(d) == pytest.approx(face.diagonal)


def _run(*arguments, cwd):
    return subprocess.run(
        [sys.executable, "-m", "tubeframe", "square", *arguments], cwd=cwd, capture_output=True, text=True, check=False
    )


def test_the_command_reads_a_build_and_lists_faces_when_the_name_is_wrong(tmp_path):
    folder = tmp_path / "my-table"
    folder.mkdir()
    (folder / "design.json").write_text(json.dumps(design_document(table())), encoding="utf-8")
    done = _run("my-table", "--face", "front", "--measured", "63 1/4in", "--measured", "62 5/8in", cwd=tmp_path)

    assert done.returncode == 0, done.stderr
    # (63.25^2 - 62.625^2) / (4 x 56.078) = 0.3508 in
    assert 'push the upper right corner 3/8" to the left' in done.stdout
    assert "lower left: on " in done.stdout
    wrong = _run("my-table", "--face", "frnt", cwd=tmp_path)
    assert wrong.returncode == 2
    assert "this frame has floor, front, back, left, right" in wrong.stderr
    assert "did you mean 'front'?" in wrong.stderr
    for arguments in (["--measured", "63in"], ["--measured", "9ft", "--measured", "63in"]):
        assert _run("my-table", "--face", "front", *arguments, cwd=tmp_path).returncode == 2
    assert "Traceback" not in _run("nowhere", "--face", "front", cwd=tmp_path).stderr
