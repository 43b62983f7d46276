"""Boards against the tubes that they lie on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.geometry.tolerance import COUPLER_MM, TINY
from tubeframe.joints.facts import InBoard

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Tube


def board_findings(frame: Frame, tubes: Sequence[Tube], workshop: Workshop) -> Iterator[Finding]:
    """Find tubes that go into a board."""
    for panel in frame.panels:
        for tube in tubes:
            radius = workshop.catalog.tube(tube.size).outside / 2.0
            depth = max(
                _depth(panel.placement.seen(p - panel.placement.origin), panel.length, panel.width, radius)
                for p in (tube.path.start, tube.path.end, tube.path.point(tube.path.length / 2.0))
            )
            if depth > COUPLER_MM:
                yield Finding(
                    code="J-panel",
                    severity=Severity.ERROR,
                    subjects=(tube.id, panel.id),
                    fact=InBoard(panel=panel.id, tube=tube.id, short=depth),
                )


def _depth(local: Vec, length: float, width: float, radius: float) -> float:
    """Return how far a tube's surface is above a board's underside, within its outline [mm]."""
    inside = -TINY < local.x < length + TINY and -TINY < local.y < width + TINY
    return local.z if inside and local.z > 0.0 and radius > 0.0 else 0.0
