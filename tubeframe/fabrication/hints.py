"""What a step says beside its main action: which way bolt heads face, and the piece that closes a ring."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.joints.keys import middle_of

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import BoltWay, Jointed, JointId, TubeId
    from tubeframe.joints.loops import Ring
    from tubeframe.parts.piece import Parts

_UPRIGHT = 0.7


def bolt_words(added: Collection[JointId], jointed: Jointed) -> tuple[str, ...]:
    """Say by kind which way the heads of the new fittings' bolts face; nothing without bolts."""
    kinds = {j.id: j.kind.replace("-", " ") for j in jointed.joints if j.id in added}
    middle = middle_of(jointed.tubes)
    ways: dict[str, dict[str, None]] = {}
    for bolt in jointed.bolts:
        if bolt.joint in kinds:
            ways.setdefault(kinds[bolt.joint], {})[_facing(bolt, middle)] = None
    said = "; ".join(f"{kind} {' or '.join(words)}" for kind, words in ways.items())
    return (f"Bolt heads, where the key has room: {said}.",) if said else ()


def _facing(bolt: BoltWay, middle: Vec) -> str:
    """Say which way a head faces: up, down, or away from the frame's middle or toward it."""
    if abs(bolt.head.z) > _UPRIGHT:
        return "up" if bolt.head.z > 0.0 else "down"
    return "outward" if (bolt.at - middle).dot(bolt.head) >= 0.0 else "inward"


def closing_words(
    new: Collection[TubeId], there: Collection[TubeId], rings: Sequence[Ring], parts: Parts
) -> tuple[str, ...]:
    """Name the piece that closes each ring which the new tubes complete, given all tubes that are there then."""
    marks = {p.id: p.mark for p in parts.pieces}
    closed = [r for r in rings if all(t in there for t in r.tubes) and any(t in new for t in r.tubes)]
    slides: dict[str, dict[str, None]] = {}
    stiff: dict[str, None] = {}
    for ring in closed:
        slide = next((s for s in ring.slides if s.tube in new), next(iter(ring.slides), None))
        if slide is None:
            stiff[", ".join(dict.fromkeys(marks[t] for t in ring.tubes))] = None
        else:
            slides.setdefault(marks[slide.tube], {})[marks[slide.along]] = None
    return (
        *(
            f"Nothing slides in the ring of {n}: cut each of these on one stop, try it before you tighten."
            for n in stiff
        ),
        *(f"Closing piece: {m}; slide it along {' and '.join(a)} until it drops in." for m, a in slides.items()),
    )
