"""What is bought besides tubes, fittings and boards is used in a step, at its turn (common practice, no source)."""

from __future__ import annotations

import pytest

from tests.building import design_of
from tubeframe.assembly.jobs import jobs_for
from tubeframe.assembly.step import Work
from tubeframe.frame.job import JobKind
from tubeframe.words.steps import told_steps

CASES = {
    "greenhouse": {},
    "greenhouse in sockets": {"anchor": "socket", "vents": "sides"},
    "greenhouse on boards": {"anchor": "baseboard", "ends": "open", "cover": "net"},
    "greenhouse on flanges": {"anchor": "base-flange", "ends": "film"},
    "shelf": {},
    "shelf on flanges": {"foot": "base-flange"},
    "bed-rack": {},
    "bed-rack in pockets": {"mount": "stake-pocket"},
    "table": {"foot": "caster"},
    "table on flanges": {"foot": "base-flange"},
}


def built(name):
    return design_of(name.split(" ")[0], **CASES[name])


@pytest.mark.parametrize("name", CASES)
def test_all_that_is_bought_is_used_in_a_step(name):
    design = built(name)
    in_steps = {job for step in design.assembly.steps for job in step.jobs}

    assert design.frame.supplies
    assert [s.item for s in design.frame.supplies if s.job is None] == []
    assert {s.job for s in design.frame.supplies} == in_steps


@pytest.mark.parametrize("name", CASES)
def test_every_job_is_told_where_it_is_done(name):
    """A step's words are as many as its own and those of its jobs; none is left empty."""
    design = built(name)
    for step, words in zip(design.assembly.steps, told_steps(design), strict=True):
        if step.jobs:
            assert len(words.action) >= len(step.jobs)
        assert words.action


def test_the_order_of_what_goes_on_last():
    """Square, tight, anchored, capped; then the door is tried; then the cover, which makes the wind load."""
    works = [s.work for s in built("greenhouse").assembly.steps]
    wanted = (Work.SQUARE, Work.TIGHTEN, Work.ANCHOR, Work.CAPS, Work.DOOR, Work.COVER, Work.LAST_LOOK)

    assert [w for w in works if w in wanted] == list(wanted)
    assert works[0] is Work.SET_OUT


def test_thresholds_and_sockets_are_let_in_before_anything_stands():
    design = built("greenhouse in sockets")
    first = design.assembly.steps[0]

    assert first.work is Work.SET_OUT
    assert [j.kind for j in first.jobs] == [JobKind.SOCKETS, JobKind.THRESHOLDS]


def test_where_studs_stand_on_a_threshold():
    """From the left foot's middle: the hoop's middle is at half of 96 - 0.922; jambs 12.696 and 20.226 off it."""
    (job,) = [j for j in jobs_for(built("greenhouse").frame, Work.SET_OUT) if j.kind is JobKind.THRESHOLDS]
    middle = (96 - 0.922) / 2

    assert [v / 25.4 for v in job.lengths] == pytest.approx([middle - 12.696, middle + 20.226], abs=2e-3)


def test_ends_that_stay_open_are_gathered():
    for name, ends in (("greenhouse on boards", True), ("greenhouse", False)):
        (cover,) = [w for w in told_steps(built(name)) if w.data.work is Work.COVER]
        assert any("Gather" in a for a in cover.action) is ends


def test_cautions_stand_before_the_work_they_belong_to():
    """Anchor and cover have steps of their own; what is said of wind comes before the cover goes on."""
    words = {w.data.work: w for w in told_steps(built("greenhouse in sockets"))}

    assert any("buried" in c.text for c in words[Work.SET_OUT].cautions)
    assert any("lifts off" in c.text for c in words[Work.ANCHOR].cautions)
    assert any("wind load" in c.text for c in words[Work.COVER].cautions)
