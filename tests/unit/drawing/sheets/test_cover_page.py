"""The cover says only what is true of the frame."""

from __future__ import annotations

from tests.building import design_of_text, table
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.items import Text

FEET = ["foot", "cap"]
MIXED = (
    {"id": "a", "path": [[0, 0, 0], [0, 0, 900]], "ends": FEET, "tube": "emt-1"},
    {"id": "b", "path": [[600, 0, 0], [600, 0, 900]], "ends": FEET},
    {"id": "rail", "path": [[0, 0, 400], [600, 0, 400]]},
)


def _words(design):
    return " ".join(i.text for i in Drawings(design).sheets[0].items if isinstance(i, Text))


def test_boards_are_told_only_where_there_are_some():
    assert "with boards, without fittings" in _words(table())
    assert "with boards" not in _words(design_of_text(*MIXED))


def test_clear_sizes_count_the_tube_at_each_end():
    """EMT 1 is 1.163 in thick, EMT 3/4 0.922 in (ANSI C80.3, from memory): posts 600 mm apart in the middle.

    Outside 600 + (29.540 + 23.419) / 2 = 626.5 mm, clear 600 - 26.5 = 573.5 mm.
    """
    text = _words(design_of_text(*MIXED, tube="emt-3/4"))

    assert "626 mm outside, 600 mm centre to centre, 574 mm clear inside" in text or (
        "627 mm outside, 600 mm centre to centre, 574 mm clear inside" in text
    )


def test_a_frame_with_slanting_legs_has_no_clear_size():
    splayed = (
        {"id": "beam", "path": [[0, 0, 800], [1200, 0, 800]], "ends": ["cap", "cap"]},
        {"id": "one", "path": [[100, 0, 800], [100, -300, 0]]},
        {"id": "two", "path": [[900, 0, 800], [900, 300, 0]]},
    )
    text = _words(design_of_text(*splayed))

    assert "1200 mm outside" in text
    assert "clear inside" not in text


def test_an_error_is_told_first_in_large_letters_and_then_in_full():
    design = design_of_text(
        {"id": "a", "path": [[0, 0, 0], [0, 0, 900]], "ends": FEET},
        {"id": "b", "path": [[0, 0, 400], [600, 0, 410]], "ends": ["joint", "open"]},
        {"id": "c", "path": [[0, 0, 400], [300, 500, 700]], "ends": ["joint", "open"]},
    )
    texts = [i for i in Drawings(design).sheets[0].items if isinstance(i, Text)]
    (large,) = [t for t in texts if t.text == "DO NOT BUILD YET"]

    assert large.height == max(t.height for t in texts)
    assert "What to do:" in _words(design)
