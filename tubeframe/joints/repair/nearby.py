"""A first look at a changed frame: only the tubes that feel the change, taken alone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.geometry.extent import along_tube, of_convex
from tubeframe.geometry.grid import meet
from tubeframe.joints.facts import Apart
from tubeframe.joints.repair.sound import brings_errors, errors_of, uncovered
from tubeframe.joints.resolve import resolved

if TYPE_CHECKING:
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene
    from tubeframe.joints.repair.work import Work

_BESIDE = 60.0
"""A change is felt by tubes this near to it: half of a large clamp and its key [mm]."""
_SHARE = 0.5
"""A cut-out of more than this share of all tubes saves nothing."""


class Nearby:
    """Cut-outs of a frame around changes; the unchanged one of each is looked at once."""

    def __init__(self, scene: Scene, work: Work) -> None:
        """Take the frame before any change."""
        self._scene = scene
        self._work = work
        self._before: dict[frozenset[str], tuple[Finding, ...]] = {}

    def gain(self, fault: Fault, frame: Frame) -> int | None:
        """Return by how many errors a changed frame has less around the change; None when it has a new one.

        What fails here fails in the whole frame: both cut-outs lack the same tubes, so that what is missing looks the
        same in both. Where most tubes feel the change nothing is looked at: it may gain what the fault counts.
        """
        names = self._around(frame)
        if len(names) > _SHARE * len(frame.members):
            return len(fault.findings)
        if names not in self._before:
            self._before[names] = self._findings(self._scene.frame, names)
        before, after = self._before[names], self._findings(frame, names)
        if brings_errors(before, after, uncovered(fault, self._scene)):
            return None
        return errors_of(before).total() - errors_of(after).total()

    def _around(self, frame: Frame) -> frozenset[str]:
        """Return the tubes near to the tubes and boards that are changed, where they were or where they are."""
        old, new = ({m.id: m for m in f.members} for f in (self._scene.frame, frame))
        changed = [m for a, b in ((old, new), (new, old)) for m in a.values() if b.get(m.id) != m]
        boxes = [box for m in changed for box in along_tube(m.path, 2.0 * _BESIDE, 4.0 * _BESIDE)]
        boards = [p for f in (self._scene.frame, frame) for p in f.panels]
        boxes += [of_convex(p.box) for p in boards if boards.count(p) == 1]
        return frozenset(
            m.id
            for f in (old, new)
            for m in f.values()
            if any(meet(box, other) for box in along_tube(m.path, _BESIDE, 4.0 * _BESIDE) for other in boxes)
        )

    def _findings(self, frame: Frame, names: frozenset[str]) -> tuple[Finding, ...]:
        cut = replace(frame, members=tuple(m for m in frame.members if m.id in names))
        found = resolved(cut, self._scene.workshop).findings
        self._work.look(len(names), len(found))
        return tuple(f for f in found if not isinstance(f.fact, Apart))
