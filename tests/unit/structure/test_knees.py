"""Knees that are offered against folding and sway."""

from __future__ import annotations

import math

import pytest

from tests.building import draft_of
from tests.unit.structure.test_check import HEIGHT, of, stand
from tubeframe.catalog.conditions import Conditions
from tubeframe.cli.additions import additions
from tubeframe.geometry.units import POUND_N
from tubeframe.structure.bracing import knees_against
from tubeframe.structure.check import verdicts
from tubeframe.structure.knee import Knee, knees
from tubeframe.structure.study import Study
from tubeframe.structure.trial import Post, governing
from tubeframe.structure.verdict import Code, Outcome


def test_every_square_corner_has_a_knee_of_two_equal_arms():
    """Four corners of a leg and two rails: three planes each."""
    _, joints, _ = stand()
    found = knees(joints)

    assert len(found) == 12
    for knee in found:
        start, end = knee.ends
        assert start.distance(knee.corner_at) == pytest.approx(knee.arm)
        assert start.distance(end) == pytest.approx(knee.arm * math.sqrt(2.0))
        paths = {t.id: t.path for t in joints.tubes}
        for tube, place, at in zip(knee.tubes, knee.places, knee.ends, strict=True):
            assert paths[tube].point(place).distance(at) < 1e-6


def test_a_corner_that_has_a_knee_is_offered_no_other():
    draft = draft_of("table")
    tied = {("leg.back.left", "rail.back"), ("leg.back.left", "rail.left")}

    assert any(m.id == "knee.back.left" for m in draft.frame.members)
    assert not tied & {k.tubes for k in knees(draft.jointed)}


def test_as_many_knees_as_ways_to_fold_stop_a_stand():
    """Four legs and four rails with hinges fold four ways; both ends, a long side and the top have to be braced."""
    folds = of(verdicts(*stand(), Conditions()), Code.FOLDS)
    planes = sorted(_plane(k) for k in folds.knees)

    assert (folds.outcome, folds.value) == (Outcome.WARNING, 4.0)
    assert planes == ["across", "across", "along", "level"]


def _plane(knee: Knee) -> str:
    one, other = knee.axes
    normal = one.cross(other)
    return "level" if abs(normal.z) > 0.9 else "across" if abs(normal.x) > 0.9 else "along"


def test_a_knee_against_a_push_lies_in_its_plane():
    """A push along x bends the corners of the frames along x."""
    frame, joints, shop = stand()
    study = Study(frame, joints, shop, Conditions())
    found = knees_against(study, study.cases[0], 4)

    assert len(found) == 4
    assert all(_plane(k) == "along" for k in found)
    assert all(min(e.z for e in k.ends) == pytest.approx(HEIGHT - k.arm) for k in found)


def test_added_tubes_are_clamped_and_solved_again():
    """A table without braces sways too far; a knee in the plane of the push betters that, each offered one does."""
    draft = draft_of("table", length="60in", width="30in", braces="none")
    conditions = Conditions(load=50.0 * POUND_N)
    found = verdicts(draft.frame, draft.jointed, draft.workshop, conditions)
    tried = additions(draft.frame, draft.workshop, draft.source, conditions, found)

    assert any(isinstance(a, Knee) for t in tried for a in t.added)
    assert all(t.passes or t.worst.ratio < governing(found).ratio for t in tried)


def test_a_post_under_a_rail_that_is_too_weak():
    draft = draft_of("table")
    conditions = Conditions(load=250.0 * POUND_N)
    found = verdicts(draft.frame, draft.jointed, draft.workshop, conditions)
    assert of(found, Code.STRENGTH).outcome is Outcome.FAILS
    tried = additions(draft.frame, draft.workshop, draft.source, conditions, found)
    posts = [t for t in tried if isinstance(t.added[0], Post)]

    assert [t.added[0].under for t in posts] == ["rail.front"]
    assert posts[0].passes
