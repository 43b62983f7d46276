"""The search for repairs: one is offered only when the whole frame was checked with it done."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import BendError, CatalogError, FrameError
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.joints.repair.attempts import attempts
from tubeframe.joints.repair.faults import Fault, faults_of
from tubeframe.joints.repair.nearby import Nearby
from tubeframe.joints.repair.operations import only_more_of
from tubeframe.joints.repair.scene import scene_of
from tubeframe.joints.repair.sound import brings_errors, errors_of, is_mended, soundness, uncovered
from tubeframe.joints.repair.work import Work
from tubeframe.joints.resolve import resolved

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Jointed
    from tubeframe.joints.repair.attempts import Attempt
    from tubeframe.joints.repair.operations import Operation
    from tubeframe.joints.repair.scene import Scene

_MOST_OFFERED = 2
_MOST_COMPARED = 3
_LIKE = 3.0
"""A repair that gives up no more than this many times as much is one like another."""
_MOST_DONE = 60
_WORK_OF_ALL = 3_000.0
"""What may be looked over when a whole frame is to be mended."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """What mends a fault, the frame before and after it, and the fittings that it brings: kind and number.

    `effort` is how much it gives up of what was stated, as a length [mm].
    """

    fault: Fault
    operation: Operation
    effort: float
    before: Frame
    after: Frame
    brings: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A frame after all repairs that were found, what was done in turn, and how many faults are left.

    `stopped` is whether the search had done all its work before it was through.
    """

    frame: Frame
    done: tuple[Repair, ...]
    left: int
    stopped: bool


def repairs(
    frame: Frame, workshop: Workshop, found: Jointed | None = None, work: Work | None = None
) -> tuple[Repair, ...]:
    """Return changes that mend a fault and bring no new one; at most two a fault, the least effort first.

    What the first offer for another fault mends too gets no offer of its own. `found` are the frame's joints, when
    they are known, `work` how much may be done: where it is over in the end, there may be more.

    With a change done every check is run again, every two tubes that were held together have to be so still, every
    board has to lie on the tubes that it lay on, and every foot on the floor.
    """
    scene = scene_of(frame, found or resolved(frame, workshop), workshop)
    offered: list[Repair] = []
    known: set[Operation] = set()
    told: set[Finding] = set()
    errors = errors_of(scene.found.findings)
    work = work or Work()
    for fault in faults_of(scene):
        if work.over:
            break
        if set(fault.findings) <= told:
            continue
        offers = _offers(fault, scene, work)
        offered += [r for r, _ in offers if r.operation not in known]
        known |= {r.operation for r, _ in offers}
        for _, after in offers[:1]:
            left = errors_of(after.found.findings)
            told |= {f for f in scene.found.findings if is_mended(Fault(findings=(f,)), errors, left)}
    return tuple(offered)


def _offers(fault: Fault, scene: Scene, work: Work) -> list[tuple[Repair, Scene]]:
    """Return the first repairs of a fault that differ in more than how far something goes."""
    found: list[tuple[Repair, Scene]] = []
    for step in _mending(fault, scene, work):
        if all(not only_more_of(step[0].operation, one.operation) for one, _ in found):
            found.append(step)
        if len(found) == _MOST_OFFERED:
            break
    return found


def mended(frame: Frame, workshop: Workshop) -> Mended:
    """Do the first repair that is found, fault by fault, as long as there is one."""
    scene = scene_of(frame, resolved(frame, workshop), workshop)
    done: list[Repair] = []
    work = Work(_WORK_OF_ALL)
    while len(done) < _MOST_DONE:
        step = next((s for fault in faults_of(scene) if (s := _best(fault, scene, work))), None)
        if step is None:
            break
        repair, scene = step
        done.append(repair)
    return Mended(frame=scene.frame, done=tuple(done), left=errors_of(scene.found.findings).total(), stopped=work.over)


def _best(fault: Fault, scene: Scene, work: Work) -> tuple[Repair, Scene] | None:
    """Return, of the first few repairs that give up alike, the one that mends the most."""
    promising = _promising(fault, scene, work)
    while few := [a for _, a in zip(range(_MOST_COMPARED), promising, strict=False)]:
        most = _LIKE * few[0][1].effort
        for _, attempt in sorted(few, key=lambda pair: (pair[1].effort > most, -pair[0])):
            if step := _checked(fault, scene, attempt, work):
                return step
    return None


def _promising(fault: Fault, scene: Scene, work: Work) -> Iterator[tuple[int, Attempt]]:
    """Give what could be tried and brings no error around the change, with the errors that it mends there."""
    nearby = Nearby(scene, work)
    for attempt in attempts(fault, scene, work):
        if work.over:
            return
        if all(m.path.length > PLANE_MM for m in attempt.frame.members):
            try:
                gain = nearby.gain(fault, attempt.frame)
            except (BendError, CatalogError, FrameError):
                continue
            if gain is not None:
                yield gain, attempt


def _mending(fault: Fault, scene: Scene, work: Work) -> Iterator[tuple[Repair, Scene]]:
    """Give every attempt that mends a fault, and what the frame is then."""
    for _, attempt in _promising(fault, scene, work):
        if step := _checked(fault, scene, attempt, work):
            yield step


def _checked(fault: Fault, scene: Scene, attempt: Attempt, work: Work) -> tuple[Repair, Scene] | None:
    """Check a whole changed frame; None when the change is no repair, or there is no work left to see it."""
    if work.over:
        return None
    try:
        after = scene_of(attempt.frame, resolved(attempt.frame, scene.workshop), scene.workshop)
    except (BendError, CatalogError, FrameError):
        work.look(len(attempt.frame.members), 0)
        return None
    work.look(len(attempt.frame.members) + len(attempt.frame.panels), len(after.found.findings))
    was, now = soundness(scene), soundness(after)
    brings = brings_errors(scene.found.findings, after.found.findings, uncovered(fault, scene))
    if brings or not is_mended(fault, was.errors, now.errors) or not was.is_kept_by(now):
        return None
    repair = Repair(
        fault=fault,
        operation=attempt.operation,
        effort=attempt.effort,
        before=scene.frame,
        after=attempt.frame,
        brings=_brought(scene.found, after.found),
    )
    return repair, after


def _brought(before: Jointed, after: Jointed) -> tuple[tuple[str, int], ...]:
    """Count the fittings that a repair brings."""
    kinds = [Counter(j.kind for j in found.joints if j.fitting and not j.is_end_piece) for found in (after, before)]
    return tuple((kinds[0] - kinds[1]).items())
