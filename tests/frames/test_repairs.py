"""What is offered for every text frame with a fault: it mends, brings nothing new, and leaves alone what stands."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from tests.frames.case import read
from tests.frames.cases import CASES
from tubeframe.errors import Severity
from tubeframe.frame.member import EndKind
from tubeframe.joints.repair.search import mended, repairs
from tubeframe.joints.resolve import resolved

STANDING = {k for k in EndKind if k.is_grounded}
WARNINGS_MENDED = {"J-foot-slope"}
POSTS_AT_FAULT = {"ends/too_short", "ends/short_tie", "stands/foot_in_the_air", "stands/flange_in_the_air"}
"""Here the fault is where the posts stand."""


BY_NAME = {c.frame: c for c in CASES}
FAULTY = [pytest.param(c, id=c.frame) for c in CASES if not c.is_sound]


@cache
def _offers(name):
    """Return a case's repairs; looked for once."""
    return repairs(*read(BY_NAME[name]))


def _faults(frame, workshop):
    """Count errors, and warnings of a kind that is mended."""
    found = resolved(frame, workshop).findings
    told = (f for f in found if f.severity is Severity.ERROR or f.code in WARNINGS_MENDED)
    return Counter((f.code, frozenset(f.subjects)) for f in told)


def _feet(frame):
    """Give every end that stands on the floor, and how high its middle is [mm]."""
    return {
        (m.id, n): p.z
        for m in frame.members
        for n, (kind, p) in enumerate(zip(m.ends, (m.path.start, m.path.end), strict=True))
        if kind in STANDING and abs(p.z) < 0.5
    }


def _changed(repair):
    old = {m.id: m for m in repair.before.members}
    return [m for m in repair.after.members if old.get(m.id) != m]


@pytest.mark.parametrize("case", FAULTY)
def test_every_offer_mends_and_brings_no_new_error(case):
    frame, workshop = read(case)
    before = _faults(frame, workshop)
    for offer in _offers(case.frame):
        after = _faults(offer.after, workshop)
        assert after.total() < before.total()
        assert {code for code, _ in after} <= {code for code, _ in before}


@pytest.mark.parametrize("case", FAULTY)
def test_every_offer_leaves_the_feet_on_the_floor(case):
    frame, _ = read(case)
    feet = _feet(frame)
    for offer in _offers(case.frame):
        after = _feet(offer.after)
        assert {k: after.get(k) for k in feet} == pytest.approx(feet, abs=0.5)


@pytest.mark.parametrize("case", FAULTY)
def test_the_first_offer_leaves_posts_where_they_stand(case):
    """What is done first moves the tube at fault, not a post and all that hangs on it; or the frame as a whole."""
    frame, _ = read(case)
    for offer in _offers(case.frame)[:1]:
        changed = _changed(offer)
        lay = {m.id: m.path for m in frame.members}
        stands = [m.id for m in changed if set(m.ends) & STANDING and m.path != lay.get(m.id)]
        assert not stands or len(changed) == len(frame.members) or case.frame in POSTS_AT_FAULT


@pytest.mark.parametrize("case", FAULTY)
def test_the_first_offer_changes_what_is_at_fault_and_what_hangs_on_it(case):
    """Every other tube keeps its place and length: no dimension changes that nobody asked for."""
    for offer in _offers(case.frame)[:1]:
        at_fault = {s for f in offer.fault.findings for s in f.subjects}
        joints = resolved(offer.before, read(case)[1]).joints
        near = {u.tube for j in joints if any(_of(u.tube) & at_fault for u in j.uses) for u in j.uses}
        changed = {m.id for m in _changed(offer)}
        whole = len(changed) == len(offer.before.members)

        assert whole or changed <= {name for tube in {*near, *at_fault} for name in _of(tube)} | _hanging(case)


def _of(tube):
    """Return the names of a tube and of the member that it may be a part of."""
    return {tube, tube.rsplit(".", 1)[0]}


def _hanging(case):
    """Return the tubes that go along with a post that has to move."""
    return {m.id for m in read(case)[0].members} if case.frame in POSTS_AT_FAULT else set()


@pytest.mark.parametrize("case", FAULTY)
def test_mending_all_leaves_fewer_errors_or_does_nothing(case):
    frame, workshop = read(case)
    done = mended(frame, workshop)

    assert not done.done or _faults(done.frame, workshop).total() < _faults(frame, workshop).total()
    assert {k: _feet(done.frame).get(k) for k in _feet(frame)} == pytest.approx(_feet(frame), abs=0.5)


def test_a_bad_place_for_a_sleeve_moves_the_sleeve_and_no_post():
    for offer in _offers("splits/asked_near_the_end"):
        assert not any(m.id.startswith("post") for m in _changed(offer))
