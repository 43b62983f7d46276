"""Whether a frame hangs together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.joints.facts import Apart

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.joints.joint import Joint, Tube, TubeId


def apart_findings(tubes: Sequence[Tube], joints: Sequence[Joint]) -> Iterator[Finding]:
    """Find tubes that do not hang together with the first."""
    if not tubes:
        return
    tied: dict[TubeId, list[Joint]] = {}
    for joint in joints:
        for use in joint.uses:
            tied.setdefault(use.tube, []).append(joint)
    reached, frontier = {tubes[0].id}, [tubes[0].id]
    while frontier:
        for joint in tied.pop(frontier.pop(), ()):
            fresh = [u.tube for u in joint.uses if u.tube not in reached]
            reached.update(fresh)
            frontier += fresh
    apart = tuple(t.id for t in tubes if t.id not in reached)
    if apart:
        yield Finding(code="J-apart", severity=Severity.ERROR, subjects=apart, fact=Apart(tubes=apart))
