"""Ends given to a thousandth of an inch, or to a whole millimetre, still meet."""

from __future__ import annotations

import math

import pytest

from tests.building import words_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.facts import Snapped
from tubeframe.geometry.units import INCH_MM
from tubeframe.joints.facts import LooseEnd
from tubeframe.joints.resolve import jointed

WORKSHOP = generic_workshop()
POSTS = (("left", [[0, 0, 0], [0, 0, 40]], ["foot", "cap"]), ("right", [[30, 0, 0], [30, 0, 40]], ["foot", "cap"]))


def _frame(*members):
    rows = [{"id": name, "path": path, "ends": ends} for name, path, ends in members]
    document = {"schema": "tubeframe.frame/1", "name": "test", "units": "in", "tube": "emt-3/4", "member": rows}
    return frame_from_document(document, WORKSHOP, "test.toml")


@pytest.mark.parametrize("miss", [0.0004, 0.004, 0.019])
def test_an_end_that_just_misses_is_put_on_the_tube(miss):
    frame = _frame(*POSTS, ("rail", [[miss, 0, 20], [30, miss, 20]], ["joint", "joint"]))
    rail = frame.members[2]
    found = jointed(frame, WORKSHOP)

    assert abs(rail.path.start.x) <= 0.01 + 1e-9
    assert abs(rail.path.end.y) <= 0.01 + 1e-9
    assert [f.code for f in found.findings if f.severity is Severity.ERROR] == []
    told = [f for f in frame.findings if isinstance(f.fact, Snapped)]
    assert len(told) == (2 if miss * INCH_MM > 0.01 else 0)
    assert all(f.severity is Severity.INFO for f in told)


def test_a_wider_miss_is_told_with_the_tube_and_the_distance():
    frame = _frame(*POSTS, ("rail", [[0, 0, 20], [29.7, 0, 20]], ["joint", "joint"]))
    (told,) = (f for f in jointed(frame, WORKSHOP).findings if isinstance(f.fact, LooseEnd))

    assert (told.fact.nearest, round(told.fact.gap / INCH_MM, 6)) == ("right", 0.3)
    assert "misses the centreline of right by 5/16" in words_of(told).message


def test_an_end_on_a_bend_is_told_as_such():
    bow = ("bow", [[0, 0, 0], [0, 0, 30], [30, 0, 30], [30, 0, 0]], ["stake", "stake"])
    middle = 5.539 * (1 - math.sqrt(0.5))
    arm = ("arm", [[middle, 0, 30 - middle], [middle, 20, 30 - middle]], ["joint", "cap"])
    (told,) = (f for f in jointed(_frame(bow, arm), WORKSHOP).findings if isinstance(f.fact, LooseEnd))

    assert told.fact.is_on_bend
    assert "on a bend of bow" in words_of(told).message


def test_no_other_tube_is_only_said_where_none_is():
    frame = _frame(("alone", [[0, 0, 0], [0, 0, 30]], ["foot", "joint"]))
    (told,) = (f for f in jointed(frame, WORKSHOP).findings if isinstance(f.fact, LooseEnd))

    assert told.fact.nearest is None
    assert "no other tube is there" in words_of(told).message


def test_corners_meet_in_one_point():
    """Three ends a hundredth of an inch apart are one corner: at the end stated first."""
    frame = _frame(
        ("leg", [[0, 0, 0], [0, 0, 30]], ["foot", "joint"]),
        ("long", [[0.01, 0, 30], [40, 0, 30]], ["joint", "cap"]),
        ("short", [[0, 0.01, 30.01], [0, 20, 30]], ["joint", "cap"]),
    )
    joint = next(j for j in jointed(frame, WORKSHOP).joints if j.kind == "side-outlet-elbow")

    assert {u.tube for u in joint.uses} == {"leg", "long", "short"}
    assert frame.members[1].path.start.distance(frame.members[0].path.end) < 1e-9
