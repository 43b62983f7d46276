"""Parts that turn on the rest: held by rings on one tube, and by nothing else."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.frame.group import in_groups
from tubeframe.joints.hinge_facts import CannotTurn, FewHinges

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.group import Group
    from tubeframe.joints.joint import Joint, Jointed, Tube

_LEAST_RINGS = 2


def hinge_findings(frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint]) -> Iterator[Finding]:
    """Find groups that are tied to the rest by more than rings on their post, or by one ring only."""
    member_of = {str(t.id): t.member for t in tubes}
    for group in frame.groups:
        ties = [j for j in joints if _crosses(group, [member_of[str(u.tube)] for u in j.uses])]
        rings = [j for j in ties if _turns(group, j, member_of)]
        for joint in (j for j in ties if j not in rings):
            fact = CannotTurn(group=group.name, post=group.turns_on, fitting=joint.named)
            subjects = tuple(u.tube for u in joint.uses)
            yield Finding(code="J-tied-door", severity=Severity.WARNING, subjects=subjects, fact=fact)
        if len(rings) < _LEAST_RINGS:
            few = FewHinges(group=group.name, post=group.turns_on, rings=len(rings))
            yield Finding(code="J-hinges", severity=Severity.WARNING, subjects=(group.turns_on,), fact=few)


def fixed_part(frame: Frame, jointed: Jointed) -> Jointed:
    """Return what is left of a frame that turns on nothing: its groups stiffen and carry nothing of it."""
    turning = in_groups(frame.groups)
    gone = {t.id for t in jointed.tubes if t.member in turning}
    if not gone:
        return jointed
    joints = tuple(j for j in jointed.joints if not any(u.tube in gone for u in j.uses))
    return replace(jointed, tubes=tuple(t for t in jointed.tubes if t.id not in gone), joints=joints)


def _crosses(group: Group, members: Sequence[str]) -> bool:
    inside = [m in group.members for m in members]
    return any(inside) and not all(inside)


def _turns(group: Group, joint: Joint, member_of: Mapping[str, str]) -> bool:
    """Whether a joint is a ring that turns on the group's post."""
    return joint.fitting is not None and any(
        joint.fitting.kind.port(u.port).loose and member_of[str(u.tube)] == group.turns_on for u in joint.uses
    )
