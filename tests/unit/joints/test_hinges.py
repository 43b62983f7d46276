"""Parts that turn: they brace nothing, stiffen nothing, and are written and read back."""

from __future__ import annotations

import tomllib

import pytest

from tests.frames.case import TEXT
from tests.frames.doors import CASES
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import InputError
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.facts import Push
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import Units
from tubeframe.joints.hinges import fixed_part
from tubeframe.joints.resolve import jointed

GATE = tomllib.loads((TEXT / f"{CASES[0].frame}.toml").read_text(encoding="utf-8"))


def frame(**changes):
    return frame_from_document({**GATE, **changes}, generic_workshop(), "gate.toml")


def test_the_brace_of_a_gate_does_not_brace_the_posts():
    assert [f.fact.against for f in frame().findings] == [(Push.LENGTHWISE, Push.SIDEWAYS)]
    assert [f.fact.against for f in frame(group=[]).findings] == [(Push.SIDEWAYS,)]


def test_what_turns_is_left_out_of_what_stiffens():
    """Two posts and a beam, two elbows, two flanges and two collars are left."""
    left = fixed_part(frame(), jointed(frame(), generic_workshop()))

    assert [t.id for t in left.tubes] == ["post.left", "post.right", "beam"]
    assert sorted(j.kind for j in left.joints) == ["base-flange"] * 2 + ["collar"] * 2 + ["elbow"] * 2


def test_a_group_is_written_and_read_back():
    written = frame_document(frame(), Units.INCH)

    assert written["group"] == GATE["group"]
    assert frame_from_document(written, generic_workshop(), "again.toml").groups == frame().groups


@pytest.mark.parametrize(
    ("group", "message"),
    [
        ({"id": "g", "members": ["gate.tob"], "turns_on": "post.left"}, "there is no tube 'gate.tob'"),
        ({"id": "g", "members": [], "turns_on": "post.left"}, "a group needs tubes"),
        ({"id": "g", "members": ["gate.top"], "turns_on": "gate.top"}, "'gate.top' is a tube of the group itself"),
    ],
)
def test_a_wrong_group_is_told(group, message):
    with pytest.raises(InputError) as refused:
        frame(group=[group])

    assert [p.message for p in refused.value.problems] == [message]
