"""Faults that builders make, planted in small frames: each is found with the right code, and nothing else is."""

from __future__ import annotations

import math

import pytest

from tests.building import words_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.joints.repair.search import repairs
from tubeframe.joints.resolve import jointed

WORKSHOP = generic_workshop()
OUT = 23.4188 + 4.7625
"""Offset of a coupler on EMT 3/4: D + 3/16 in [mm]."""


def _frame(*members, panels=()):
    rows = [{"id": name, "path": path, **({"ends": list(ends)} if ends else {})} for name, path, ends in members]
    document = {"schema": "tubeframe.frame/1", "name": "fault", "units": "mm", "member": rows}
    if panels:
        document["panel"] = list(panels)
    return frame_from_document(document, WORKSHOP, "fault.toml")


def _errors(*members, panels=()):
    found = jointed(_frame(*members, panels=panels), WORKSHOP).findings
    return [f.code for f in found if f.severity is Severity.ERROR]


def post(name, x, y=0, top=900):
    return (name, [[x, y, 0], [x, y, top]], ("foot", "cap"))


def rail(name, z, a=0, b=800, y=0):
    return (name, [[a, y, z], [b, y, z]], ("joint", "joint"))


SOUND = (post("left", 0), post("right", 800), rail("low", 200), rail("high", 600))

FAULTS = {
    "two rails nearer than a pitch": ((*SOUND, rail("middle", 240)), "J-pitch"),
    "a rail over the foot": ((post("left", 0), post("right", 800), rail("low", 30)), "J-pitch"),
    "a rail at the very top": (
        (post("left", 0), post("right", 800), rail("low", 200), rail("high", 885)),
        "J-overhang",
    ),
    "a tube through another": (
        (*SOUND, ("through", [[400, -300, 600], [400, 300, 600]], ("cap", "cap"))),
        "J-one-point",
    ),
    "a tube that grazes another": (
        (*SOUND, ("graze", [[400, -300, 610], [400, 300, 610]], ("cap", "cap"))),
        "J-fouls",
    ),
    "a diagonal through a diagonal": (
        (
            *SOUND,
            ("one", [[-80, OUT, 270], [880, OUT, 530]], ("cap", "cap")),
            ("other", [[-80, OUT, 530], [880, OUT, 270]], ("cap", "cap")),
        ),
        "J-one-point",
    ),
    "an end that meets nothing": (
        (*SOUND, ("stray", [[400, 0, 600], [400, 300, 600]], ("joint", "joint"))),
        "J-loose-end",
    ),
    "an end at an odd angle": (
        (
            *SOUND,
            ("slant", [[400, 0, 600], [440, 300, 620]], ("joint", "cap")),
            ("other", [[400, 0, 600], [400, 20, 900]], ("joint", "cap")),
        ),
        "J-no-fitting",
    ),
    "a post that stands alone": ((*SOUND, post("alone", 400, 500)), "J-apart"),
    "two frames side by side": (
        (*SOUND, post("far", 2000), post("farther", 2800), rail("far.rail", 300, 2000, 2800)),
        "J-apart",
    ),
    "two couplers on one spot": (
        (
            *SOUND,
            ("cross.a", [[400, OUT, 300], [400, OUT, 800]], ("cap", "cap")),
            ("cross.b", [[420, OUT, 300], [420, OUT, 800]], ("cap", "cap")),
        ),
        "J-pitch",
    ),
    "a coupler at a free end": ((*SOUND, ("short", [[400, OUT, 590], [400, OUT, 900]], ("cap", "cap"))), "J-overhang"),
    "a coupler on a bend": (
        (
            ("hoop", [[0, 0, 0], {"at": [0, 0, 900], "radius": 140}, [900, 0, 900]], ("stake", "cap")),
            ("purlin", [[OUT, -300, 745], [OUT, 300, 745]], ("cap", "cap")),
        ),
        "J-bend",
    ),
    "a post into the board": (
        (*SOUND,),
        "J-panel",
    ),
    "a tube through a clamp's shell": (
        (*SOUND, ("near", [[25, 27, 100], [25, 27, 800]], ("cap", "cap"))),
        "J-body",
    ),
    "two knees at one station of a post": (
        (
            *SOUND,
            ("knee.x", [[0, 0, 400], [200, 0, 600]], ("joint", "joint")),
            ("knee.y", [[0, 0, 400], [0, 200, 600]], ("joint", "cap")),
        ),
        "J-no-fitting",
    ),
    "a knee too near to a rail": ((*SOUND, ("knee", [[0, 0, 225], [375, 0, 600]], ("joint", "joint"))), "J-pitch"),
    "three rails and a post": (
        (
            *SOUND,
            ("one", [[0, 0, 600], [0, 400, 600]], ("joint", "cap")),
            ("two", [[0, 0, 600], [-300, 200, 600]], ("joint", "cap")),
        ),
        "J-no-fitting",
    ),
    "a brace at 60 degrees with a slanting second": (
        (
            *SOUND,
            ("a", [[400, 0, 600], [440, 200, 946]], ("joint", "cap")),
            ("b", [[400, 0, 600], [400, -200, 946]], ("joint", "cap")),
        ),
        "J-no-fitting",
    ),
    "two rails that meet end to end on air": (
        (post("left", 0), post("right", 800), rail("a", 300, 0, 380), rail("b", 300, 420, 800)),
        "J-loose-end",
    ),
    "a rail end inside a post's clamp": (
        (*SOUND, ("stub", [[0, 0, 230], [0, 300, 230]], ("joint", "cap"))),
        "J-pitch",
    ),
    "a coupler over a tee": ((*SOUND, ("over", [[12, OUT, 300], [12, OUT, 900]], ("cap", "cap"))), "J-pitch"),
    "a tube along another": (
        (*SOUND, ("along", [[100, 10, 600], [700, 10, 600]], ("cap", "cap"))),
        "J-apart",
    ),
    "a purlin on the arc itself": (
        (
            ("hoop", [[0, 0, 0], {"at": [0, 0, 900], "radius": 400}, [900, 0, 900]], ("stake", "cap")),
            ("purlin", [[OUT, -300, 480], [OUT, 300, 480]], ("cap", "cap")),
        ),
        "J-bend",
    ),
    "a leg between a board's corners": (
        (*SOUND, ("mid", [[400, 0, 600], [400, 0, 895]], ("joint", "cap"))),
        "J-panel",
    ),
    "a sleeve clamp and a tee on one branch": (
        (*SOUND, ("clip", [[30, OUT, 500], [30, OUT, 700]], ("cap", "cap"))),
        "J-pitch",
    ),
}
SLEEVES = {
    "a sleeve and a purlin at one crown": (
        [[0, 0, 0], {"at": [0, 0, 900], "radius": 140}, {"at": [900, 0, 900], "radius": 140}, [900, 0, 0]],
        1350 - 2 * 140 + math.pi * 140 / 2,
        ([450, -300, 900 - OUT], [450, 300, 900 - OUT]),
    ),
    "a sleeve of a long purlin under a coupler": (
        [[0, 0, 500], [3000, 0, 500]],
        1500,
        ([1510, OUT, 0], [1510, OUT, 900]),
    ),
}
BOARD = {
    "id": "top",
    "corners": [[-50, -200, 880], [850, -200, 880], [850, 200, 880], [-50, 200, 880]],
    "thickness": 18,
}


@pytest.mark.parametrize("trap", SLEEVES)
def test_a_clamp_over_a_sleeve_is_found(trap):
    path, sleeve, across = SLEEVES[trap]
    rows = [
        {"id": "long", "path": path, "ends": ["cap", "cap"], "split_at": [sleeve]},
        {"id": "across", "path": list(across), "ends": ["cap", "cap"]},
    ]
    document = {"schema": "tubeframe.frame/1", "name": "trap", "units": "mm", "member": rows}
    found = jointed(frame_from_document(document, WORKSHOP, "trap.toml"), WORKSHOP).findings

    assert "J-pitch" in [f.code for f in found if f.severity is Severity.ERROR]


def test_the_sound_frame_is_sound():
    assert _errors(*SOUND) == []


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_found(fault):
    members, code = FAULTS[fault]
    found = _errors(*members, panels=[BOARD] if code == "J-panel" else ())

    assert code in found


@pytest.mark.parametrize("fault", FAULTS)
def test_the_offered_repair_passes(fault):
    """Every fault gets an offer; made one after the other, they leave a frame without an error."""
    members, code = FAULTS[fault]
    frame = _frame(*members, panels=[BOARD] if code == "J-panel" else ())
    for _ in range(6):
        offered = repairs(frame, WORKSHOP)
        if not offered:
            break
        frame = offered[0].after

    assert [f.code for f in jointed(frame, WORKSHOP).findings if f.severity is Severity.ERROR] == []


def test_messages_carry_the_distance_and_what_to_do():
    found = jointed(_frame(*SOUND, rail("middle", 240)), WORKSHOP).findings
    pitch = next(f for f in found if f.code == "J-pitch")

    assert '1 9/16" apart, but need 2 1/8"' in words_of(pitch).message
    assert 'move middle 9/16" along' in words_of(pitch).remedy


def test_a_tube_held_once_is_a_warning():
    found = jointed(_frame(*SOUND, ("arm", [[400, 0, 600], [400, 300, 600]], ("joint", "cap"))), WORKSHOP).findings

    assert [(f.code, f.subjects) for f in found if f.code == "J-held-once"] == [("J-held-once", ("arm",))]
