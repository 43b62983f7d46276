"""The search for repairs: one is offered only when the whole frame was checked with it done."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.errors import BendError, FrameError
from tubeframe.geometry.extent import Extent, of_tube
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.joints.facts import Apart
from tubeframe.joints.repair.attempts import attempts
from tubeframe.joints.repair.faults import Fault, faults_of
from tubeframe.joints.repair.operations import only_more_of
from tubeframe.joints.repair.scene import scene_of
from tubeframe.joints.repair.sound import brings_errors, errors_of, is_mended, soundness, uncovered
from tubeframe.joints.resolve import resolved

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Jointed
    from tubeframe.joints.repair.operations import Operation
    from tubeframe.joints.repair.scene import Scene
    from tubeframe.joints.repair.sound import Soundness

_MOST_OFFERED = 2
_MOST_COMPARED = 3
_LIKE = 3.0
"""A repair that gives up no more than this many times as much is one like another."""
_MOST_DONE = 60
_BESIDE = 60.0
"""A change is felt by tubes this near to it: half of a large clamp and its key [mm]."""


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
    """A frame after all repairs that were found, what was done in turn, and how many faults are left."""

    frame: Frame
    done: tuple[Repair, ...]
    left: int


def repairs(frame: Frame, workshop: Workshop, found: Jointed | None = None) -> tuple[Repair, ...]:
    """Return changes that mend a fault and bring no new one; at most two a fault, the least effort first.

    What the first offer for another fault mends too gets no offer of its own. `found` are the frame's joints, when
    they are known.

    With a change done every check is run again, every two tubes that were held together have to be so still, every
    board has to lie on the tubes that it lay on, and every foot on the floor.
    """
    scene = scene_of(frame, found or resolved(frame, workshop), workshop)
    offered: list[Repair] = []
    known: set[Operation] = set()
    told: set[Finding] = set()
    errors = errors_of(scene.found.findings)
    for fault in faults_of(scene):
        if set(fault.findings) <= told:
            continue
        offers = _offers(fault, scene)
        offered += [r for r, _ in offers if r.operation not in known]
        known |= {r.operation for r, _ in offers}
        for _, after in offers[:1]:
            left = errors_of(after.found.findings)
            told |= {f for f in scene.found.findings if is_mended(Fault(findings=(f,)), errors, left)}
    return tuple(offered)


def _offers(fault: Fault, scene: Scene) -> list[tuple[Repair, Scene]]:
    """Return the first repairs of a fault that differ in more than how far something goes."""
    found: list[tuple[Repair, Scene]] = []
    for step in _mending(fault, scene):
        if all(not only_more_of(step[0].operation, one.operation) for one, _ in found):
            found.append(step)
        if len(found) == _MOST_OFFERED:
            break
    return found


def mended(frame: Frame, workshop: Workshop) -> Mended:
    """Do the first repair that is found, fault by fault, as long as there is one."""
    scene = scene_of(frame, resolved(frame, workshop), workshop)
    done: list[Repair] = []
    while len(done) < _MOST_DONE:
        step = next((s for fault in faults_of(scene) if (s := _best(fault, scene))), None)
        if step is None:
            break
        repair, scene = step
        done.append(repair)
    return Mended(frame=scene.frame, done=tuple(done), left=errors_of(scene.found.findings).total())


def _best(fault: Fault, scene: Scene) -> tuple[Repair, Scene] | None:
    """Return the first repair that leaves no error; else, of the first few like it, the one that leaves the fewest."""
    best: tuple[int, Repair, Scene] | None = None
    most = 0.0
    for number, (repair, after) in enumerate(_mending(fault, scene), start=1):
        left = errors_of(after.found.findings).total()
        most = most or _LIKE * repair.effort
        if best is None or (left < best[0] and repair.effort <= most):
            best = left, repair, after
        if not left or number == _MOST_COMPARED:
            break
    return best[1:] if best else None


def _mending(fault: Fault, scene: Scene) -> Iterator[tuple[Repair, Scene]]:
    """Give every attempt that mends a fault, and what the frame is then."""
    before = soundness(scene)
    for attempt in attempts(fault, scene):
        after = _checked(fault, scene, attempt.frame, before)
        if after is not None:
            yield (
                Repair(
                    fault=fault,
                    operation=attempt.operation,
                    effort=attempt.effort,
                    before=scene.frame,
                    after=attempt.frame,
                    brings=_brought(scene.found, after.found),
                ),
                after,
            )


def _checked(fault: Fault, scene: Scene, frame: Frame, before: Soundness) -> Scene | None:
    """Check a changed frame, first the part of it that feels the change, then all of it; None when it is no repair."""
    if any(m.path.length <= PLANE_MM for m in frame.members):
        return None
    try:
        if not _helps_nearby(fault, scene, frame):
            return None
        after = scene_of(frame, resolved(frame, scene.workshop), scene.workshop)
    except (BendError, FrameError):
        return None
    kept, was = soundness(after), scene.found.findings
    mends = is_mended(fault, before.errors, kept.errors)
    brings = brings_errors(was, after.found.findings, uncovered(fault, scene))
    return after if mends and not brings and before.is_kept_by(kept) else None


def _helps_nearby(fault: Fault, scene: Scene, frame: Frame) -> bool:
    """Whether the tubes around a change, taken alone, have no new error: what fails here fails in the whole frame.

    Both cut-outs lack the same tubes, so that what is missing looks the same in both.
    """
    old = {m.id: m for m in scene.frame.members}
    changed = [m for m in frame.members if old.get(m.id) != m]
    boxes = [of_tube(m.path, 2.0 * _BESIDE) for c in changed for m in (c, old.get(c.id)) if m is not None]
    names = {m.id for f in (scene.frame, frame) for m in f.members if _touches(of_tube(m.path, _BESIDE), boxes)}
    if 2 * len(names) > len(frame.members):
        return True
    cuts = [replace(f, members=tuple(m for m in f.members if m.id in names)) for f in (scene.frame, frame)]
    before, after = (_but_apart(resolved(f, scene.workshop).findings) for f in cuts)
    return not brings_errors(before, after, uncovered(fault, scene))


def _but_apart(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(f for f in findings if not isinstance(f.fact, Apart))


def _touches(box: Extent, others: list[Extent]) -> bool:
    return any(_overlap(box.low, box.high, o.low, o.high) for o in others)


def _overlap(low: Vec, high: Vec, other_low: Vec, other_high: Vec) -> bool:
    return all(a <= d and c <= b for a, b, c, d in zip(low, high, other_low, other_high, strict=True))


def _brought(before: Jointed, after: Jointed) -> tuple[tuple[str, int], ...]:
    """Count the fittings that a repair brings."""
    kinds = [Counter(j.kind for j in found.joints if j.fitting and not j.is_end_piece) for found in (after, before)]
    return tuple((kinds[0] - kinds[1]).items())
