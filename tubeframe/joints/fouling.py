"""Tubes that run into each other where no fitting holds them together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.geometry.closest import approaches
from tubeframe.geometry.extent import along_tube
from tubeframe.geometry.grid import CELL, near_pairs
from tubeframe.geometry.tolerance import COUPLER_MM
from tubeframe.joints.facts import Fouling

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Tube, TubeId


def fouling_findings(tubes: Sequence[Tube], joints: Sequence[Joint], workshop: Workshop) -> Iterator[Finding]:
    """Find tubes nearer than their radii where no fitting holds them together."""
    outside = [workshop.catalog.tube(t.size).outside for t in tubes]
    near = near_pairs(along_tube(t.path, d, CELL) for t, d in zip(tubes, outside, strict=True))
    together = _together(joints)
    for i, j in near.pairs:
        a, b, least = tubes[i], tubes[j], (outside[i] + outside[j]) / 2.0
        places = together.get((a.id, b.id), ())
        for close in approaches(a.path, b.path, least - COUPLER_MM):
            point = a.path.point(close.at_first)
            if any(point.distance(p) <= 2.0 * least for p in places):
                continue
            yield Finding(
                code="J-fouls",
                severity=Severity.ERROR,
                subjects=(a.id, b.id),
                fact=Fouling(first=a.id, second=b.id, distance=close.distance, least=least),
            )


def _together(joints: Sequence[Joint]) -> dict[tuple[TubeId, TubeId], list[Vec]]:
    """Return, for every two tubes that share fittings, where."""
    found: dict[tuple[TubeId, TubeId], list[Vec]] = {}
    for joint in joints:
        names = dict.fromkeys(u.tube for u in joint.uses)
        for pair in ((a, b) for a in names for b in names if a != b):
            found.setdefault(pair, []).append(joint.at)
    return found
