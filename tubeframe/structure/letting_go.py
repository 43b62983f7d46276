"""Clamps that cannot hold a tube against turning: a moment is no greater than friction, so they let it turn.

Tubes that are clamped at both ends are twisted and bent by what they tie together, without anything resting on that.
The clamps are let go; where the frame then still stands and bears its loads, they turn a little and nothing is lost.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.load import LoadUse
from tubeframe.structure.clamps import gripped
from tubeframe.structure.members import strongest_use
from tubeframe.structure.sagging import SAG_FAILS, deepest_sag
from tubeframe.structure.steadiness import pushed_way
from tubeframe.structure.stretches import HELD_FAST, LetGo

if TYPE_CHECKING:
    from collections.abc import Collection

    from tubeframe.joints.joint import JointId
    from tubeframe.structure.study import Case, Solved, Study

_MOST_ROUNDS = 6


def holds_let_go(study: Study, solved: Solved, case: Case) -> bool:
    """Whether a frame bears a case with everything let go that friction does not hold against turning.

    An end that spins in its clamp is let go about itself. Where a fitting turns on a run, what is clamped into it is
    hinged there every way, which is more than turns really. What is in equilibrium by that very clamp stays turned.
    """
    loose, found = HELD_FAST, solved
    for _ in range(_MOST_ROUNDS):
        over = {(g.joint, g.port) for g in gripped(study, found, found.together(case)) if g.moment > g.hold.twist}
        if not over:
            return _bears(study, found, case)
        more = _with(loose, over, study)
        again = None if more == loose else study.let_go(more)
        if again is None:
            return False
        loose, found = more, again
    return False


def _with(loose: LetGo, over: Collection[tuple[JointId, str]], study: Study) -> LetGo:
    """Let go what turns besides."""
    uses = [(j.id, u) for j in study.jointed.joints for u in j.uses]
    turned = {joint for joint, use in uses if use.end is None and (joint, use.port) in over}
    spins = {(joint, use.port) for joint, use in uses if use.end is not None and (joint, use.port) in over}
    return LetGo(
        spinning=loose.spinning | spins,
        hinged=loose.hinged | {(joint, use.port) for joint, use in uses if joint in turned},
    )


def _bears(study: Study, solved: Solved, case: Case) -> bool:
    moved = solved.on_the_moved_frame(case.actions)
    if moved is None or strongest_use(solved.strengths, moved).use > 1.0:
        return False
    if case.use is LoadUse.PUSH and pushed_way(solved, case) > study.limits[LimitKey.SWAY_WOBBLY]:
        return False
    sag = deepest_sag(study.spans, solved.frame, solved.together(case), solved.ends)
    return sag is None or sag.sag <= SAG_FAILS * sag.span / study.limits[LimitKey.SAG_PART]
