"""What steps say: numbers that can be measured in their own state, rings told once, sides and ends named."""

from __future__ import annotations

import math
import re

from tests.building import design_of, greenhouse, table
from tubeframe.assembly.step import Work
from tubeframe.geometry.units import format_length
from tubeframe.words.steps import told_steps


def test_a_diagonal_is_taken_between_points_that_are_there():
    """The rails of a table's top frame have no elbows on them yet: from cut end to cut end, by Pythagoras."""
    design = design_of("table")
    front, back = (next(p for p in design.parts.pieces if p.member == f"rail.{side}") for side in ("front", "back"))
    apart = front.path.start.distance(back.path.start)
    expected = format_length(math.hypot(front.cut_length, apart), design.workshop.units)
    (step,) = [s for s in told_steps(design) if s.title == "Go on with frame S3"]

    assert step.check.startswith(f"Both diagonals {expected}, from cut end to cut end")


def test_a_ring_is_told_only_of_tubes_that_are_together_then():
    """On the floor those of the step's own frames, later what was added or stood up by then."""
    said = 0
    for design in (table(), design_of("table"), design_of("shelf"), design_of("bed-rack")):
        marks = {p.id: p.mark for p in design.parts.pieces}
        members = {f.id: set(f.members) for f in design.assembly.flats}
        standing: set[str] = set()
        for step in told_steps(design):
            if step.data.work is Work.FLAT:
                own = set().union(*(members[name] for name in step.data.sub_frames))
                here = {p.mark for p in design.parts.pieces if p.member in own}
            else:
                raised = set().union(*(members[r.sub_frame] for r in step.data.raises))
                standing |= {marks[t] for t in step.tubes} | {p.mark for p in design.parts.pieces if p.member in raised}
                here = standing
            for words in (a for a in step.action if a.startswith(("Closing piece", "Nothing slides", "Let "))):
                assert set(re.findall(r"T\d+[LR]?", words)) <= here
                said += 1
    assert said


def test_what_faces_up_on_the_floor_is_turned_over_when_it_hangs_down_in_the_frame():
    """A rack's side outlet tees hold legs below: built with their mouths up, the frame is turned over."""
    steps = told_steps(design_of("bed-rack"))
    flat = next(s for s in steps if s.data.work is Work.FLAT)
    raised = next(s for s in steps if s.data.raises)

    assert "open mouths up" in flat.action[0]
    assert raised.action[0].startswith("Turn over frame S1")


def test_flanges_are_bolted_down_and_hoops_pinned():
    rack = next(s for s in told_steps(design_of("bed-rack")) if s.data.work is Work.ANCHOR)
    hoops = next(s for s in told_steps(greenhouse()) if s.data.work is Work.ANCHOR)

    assert "all 4 flanges" in " ".join(rack.action)
    assert "cross pin" in " ".join(hoops.action)


def test_strips_are_told_by_the_tubes_they_lie_on():
    """Every strip of the table is named on a tube, as often as it lies there."""
    design = design_of("table")
    (step,) = [s for s in told_steps(design) if s.data.work is Work.STRIPS]
    marks = {p.id: g.mark for g in design.parts.panel_groups for p in g.panels}

    for mark in {marks[p] for p in step.panels}:
        assert re.search(rf"\b{mark}\b", step.action[0])


def test_only_frames_with_stakes_are_slipped_over_stakes():
    """The greenhouse's door frame stands on flanges; its hoops over stakes."""
    design = design_of("greenhouse")
    staked = {p.member for p in design.parts.pieces if "stake" in (p.end_a.kind.value, p.end_b.kind.value)}
    over = {f.id for f in design.assembly.flats if staked & set(f.members)}
    others = {r.sub_frame for s in design.assembly.steps for r in s.raises} - over
    said = " ".join(a for s in told_steps(design) for a in s.action if a.startswith("Slip"))

    assert others
    assert not any(re.search(rf"\b{name}\b", said) for name in others)
