"""Changes that were tried, as a person reads them."""

from __future__ import annotations

from dataclasses import replace

from tests.building import draft_of
from tubeframe.catalog.conditions import Conditions
from tubeframe.geometry.units import POUND_N, Units
from tubeframe.geometry.vector import Vec
from tubeframe.joints.joint import TubeId
from tubeframe.structure.check import verdicts
from tubeframe.structure.knee import knees
from tubeframe.structure.trial import Post, Trial
from tubeframe.structure.verdict import Code, Outcome
from tubeframe.words.trials import trial_document, trial_lines


def found():
    draft = draft_of("table", braces="none")
    return draft, verdicts(draft.frame, draft.jointed, draft.workshop, Conditions(load=100.0 * POUND_N))


def test_a_trial_says_what_it_costs_and_what_governs():
    _, looked_at = found()
    strength = next(v for v in looked_at if v.code is Code.STRENGTH)
    trial = Trial(changes=(("tube", "emt-1"),), sticks=5, passes=True, worst=strength, chosen=True)
    warned = replace(trial, worst=replace(strength, outcome=Outcome.WARNING), chosen=False, changes=())
    head, taken, only = trial_lines([trial, warned], Units.INCH)

    assert head == "tried, each solved again:"
    assert taken == f"  takes it: --tube emt-1: 5 sticks, V-strength at {strength.ratio:.2f} of its limit"
    assert only.startswith("  passes:   as asked: 5 sticks, V-strength at ")
    assert only.endswith(", only a warning")


def test_added_tubes_are_told_with_where_they_sit():
    """Arms of 350 mm, 13 3/4 in, make a knee of 19 1/2 in."""
    draft, _ = found()
    knee = next(k for k in knees(draft.jointed) if k.tubes == ("leg.front.left", "rail.front"))
    post = Post(under=TubeId("rail.front"), place=508.0, at=Vec(508.0, 0.0, 762.0))
    trial = Trial(changes=(), added=(knee, post), sticks=6, passes=True, worst=None)
    (text,) = trial_lines([trial], Units.INCH)[1:]

    assert text == (
        f'  passes:   a knee of 19 1/2" in {knee.corner} of leg.front.left and rail.front, '
        '13 3/4" along both, below it, '
        'and a post of 30" under rail.front, 20" from its end A: 6 sticks, nothing is used'
    )
    assert len(trial_document(trial, Units.INCH)["added"]) == 2
