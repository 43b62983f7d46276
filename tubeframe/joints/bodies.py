"""Fittings' bodies in each other, and in tubes that they do not hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.errors import Finding, Severity
from tubeframe.geometry.grid import Grid, near_pairs
from tubeframe.joints.facts import BodiesMeet, TubeInBody
from tubeframe.joints.things import TOUCH_MM

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from tubeframe.joints.joint import Joint, Tube
    from tubeframe.joints.things import Things


def body_findings(
    tubes: Sequence[Tube], joints: Sequence[Joint], things: Things, fouled: Collection[frozenset[str]], tool_gap: float
) -> Iterator[Finding]:
    """Find bodies in each other, and tubes in bodies; of caps and feet, where their own tubes are not `fouled`."""
    fittings = things.fittings
    for i, j in near_pairs(f.hull for f in fittings).pairs:
        a, b = joints[i], joints[j]
        if not _is_told_as_pitch(a, b, tool_gap):
            deep = fittings[i].depth(fittings[j], _give(a) + _give(b) + TOUCH_MM)
            if deep:
                fact = BodiesMeet(first=a.named, second=b.named, short=deep)
                yield _finding(fact, tuple(u.tube for u in a.uses + b.uses))
    grid, member_of = Grid(f.hull for f in fittings), {t.id: t.member for t in tubes}
    for tube, thing in zip(tubes, things.tubes, strict=True):
        for number in grid.near(thing.hull):
            joint = joints[number]
            if any(member_of[u.tube] == tube.member for u in joint.uses):
                continue  # its own, or the end of another part of its member: a matter of the sleeve between them
            if joint.is_end_piece and frozenset((joint.uses[0].tube, tube.id)) in fouled:
                continue
            deep = thing.depth(fittings[number], TOUCH_MM)
            if deep:
                inside = TubeInBody(fitting=joint.named, tube=tube.id, short=deep)
                yield _finding(inside, (tube.id, *(u.tube for u in joint.uses)))


def _is_told_as_pitch(a: Joint, b: Joint, tool_gap: float) -> bool:
    """Whether two fittings are on one tube, nearer than their pitch."""
    gap = 0.0 if a.is_end_piece or b.is_end_piece else tool_gap
    return any(
        u.tube == v.tube and abs(u.at - v.at) < rules.pitch(a.held(u), b.held(v), gap) for u in a.uses for v in b.uses
    )


def _give(joint: Joint) -> float:
    """Return how far a body gives way [mm]: the thin shell of a cap or a foot does."""
    return joint.fitting.end_shell if joint.fitting and joint.is_end_piece else 0.0


def _finding(fact: BodiesMeet | TubeInBody, subjects: tuple[str, ...]) -> Finding:
    return Finding(code="J-body", severity=Severity.ERROR, subjects=subjects, fact=fact)
