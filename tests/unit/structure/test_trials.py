from __future__ import annotations

from tests.building import draft_of
from tubeframe.catalog.conditions import Conditions
from tubeframe.cli.remedies import Trials
from tubeframe.geometry.units import POUND_N
from tubeframe.structure.check import verdicts
from tubeframe.structure.trial import governing, passes
from tubeframe.structure.verdict import Code, Outcome
from tubeframe.template.registry import shipped_template


def trials(load: float):
    draft = draft_of("table", length="60in", width="30in", braces="none")
    conditions = Conditions(load=load)
    found = verdicts(draft.frame, draft.jointed, draft.workshop, conditions)
    return found, Trials(shipped_template("table"), draft.source, draft.workshop, conditions, found)


def test_a_remedy_was_solved_again_and_is_better():
    """A table without braces sways too far; with knees or diagonals it does not."""
    found, tried = trials(50 * POUND_N)
    assert governing(found).code in {Code.SWAY, Code.TWIST}
    assert not passes(found)
    offered = tried.one_by_one()

    assert any(dict(t.changes).get("braces") == "knees" and t.passes for t in offered)
    assert all(t.passes or t.worst.ratio < governing(found).ratio for t in offered)


def test_the_cheapest_that_passes_is_taken():
    _, tried = trials(50 * POUND_N)
    shown = tried.cheapest_that_passes()
    (chosen,) = [t for t in shown if t.chosen]

    assert shown[0].changes == ()
    assert not shown[0].passes
    assert chosen.passes
    assert chosen.sticks == min(t.sticks for t in shown if t.passes)


def test_what_passes_is_left_as_it_is():
    draft = draft_of("table", length="48in")
    conditions = Conditions(load=20 * POUND_N)
    found = verdicts(draft.frame, draft.jointed, draft.workshop, conditions)
    assert all(v.outcome is not Outcome.FAILS for v in found)
    shown = Trials(shipped_template("table"), draft.source, draft.workshop, conditions, found).cheapest_that_passes()

    assert [(t.changes, t.chosen) for t in shown] == [((), True)]
