"""What the clamps transmit against what they hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd

if TYPE_CHECKING:
    from tubeframe.joints.joint import JointId, PortUse, TubeId
    from tubeframe.structure.clamp import Hold
    from tubeframe.structure.solver.elements import Floats
    from tubeframe.structure.solver.solve import Answer
    from tubeframe.structure.study import Solved, Study


@dataclass(frozen=True, slots=True, kw_only=True)
class Gripped:
    """One tube in a clamp: the force along it [N] and the moment about it [N mm] that go through, and what it holds."""

    joint: JointId
    tube: TubeId
    port: str
    force: float
    moment: float
    hold: Hold


def gripped(study: Study, solved: Solved, answer: Answer) -> tuple[Gripped, ...]:
    """Return what goes through every clamp; a sleeve's two ends too."""
    found = []
    for joint in study.jointed.joints:
        if joint.is_end_piece or joint.fitting is None:
            continue
        for use in joint.uses:
            force, moment = _through(solved, answer, use)
            holds = study.holds[joint.id, use.port]
            found.append(Gripped(joint=joint.id, tube=use.tube, port=use.port, force=force, moment=moment, hold=holds))
    return tuple(found)


def _through(solved: Solved, answer: Answer, use: PortUse) -> tuple[float, float]:
    """Return what a clamp gives to its tube along it [N] and about it [N mm]: at an end all, on a run the step."""
    before, after = solved.frame.beside(use.tube, use.at)
    first, last = solved.ends
    ahead: Floats | None = answer.carried[first[after.bar], :6] if after else None
    behind: Floats | None = answer.carried[last[before.bar], 6:] if before else None
    parts = {TubeEnd.A: [ahead], TubeEnd.B: [behind], None: [ahead, behind]}[use.end]
    given = [p for p in parts if p is not None]
    return abs(float(sum(p[0] for p in given))), abs(float(sum(p[3] for p in given)))
