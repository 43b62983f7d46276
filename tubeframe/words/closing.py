"""The piece that closes a ring of tubes, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.joints.joint import JointId, TubeId
    from tubeframe.joints.loops import Ring
    from tubeframe.parts.piece import Parts


def closing_words(
    new: Collection[TubeId], closed: Sequence[Ring], parts: Parts, ended: Collection[tuple[JointId, TubeId]]
) -> tuple[str, ...]:
    """Name the piece that closes each ring which the new tubes complete.

    `ended` are the tubes that end in a joint: one that is only clamped on from the side needs no sliding.
    """
    marks = {p.id: p.mark for p in parts.pieces}
    slides: dict[tuple[str, bool], dict[str, None]] = {}
    stiff: dict[str, None] = {}
    for ring in closed:
        slides_in = [s for s in ring.slides if (s.joint, s.tube) in ended]
        slide = next((s for s in slides_in if s.tube in new), next(iter(slides_in), None))
        if slide is None and ring.slides:
            continue
        if slide is None:
            stiff[", ".join(dict.fromkeys(marks[t] for t in ring.tubes))] = None
        else:
            slides.setdefault((marks[slide.tube], slide.tube in new), {})[marks[slide.along]] = None
    return (
        *(f"Nothing slides in the ring of {n}: try it before you tighten it." for n in stiff),
        *(
            f"Closing piece: {mark}; slide it along {' and '.join(along)} until it drops in."
            if is_new
            else f"Let {mark} slide along {' and '.join(along)} until the ring closes."
            for (mark, is_new), along in slides.items()
        ),
    )
