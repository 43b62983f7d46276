"""Which tubes hang together, step after step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.step import Work

if TYPE_CHECKING:
    from tubeframe.assembly.step import Step
    from tubeframe.design import Design
    from tubeframe.joints.joint import TubeId


class Together:
    """The tubes that are put together, step after step: of each frame on the floor, and of what stands."""

    def __init__(self, design: Design) -> None:
        """Look up where each tube is built."""
        self._pieces = design.parts.pieces
        self._home = {m: f.id for f in design.assembly.flats for m in f.members}
        self._lying: dict[str, set[TubeId]] = {}
        self._standing: set[TubeId] = set()

    def after(self, step: Step) -> tuple[set[TubeId], set[TubeId]]:
        """Return the tubes that a step brings together, and all that hang together with them then."""
        new = set(step.tubes)
        if step.work is Work.FLAT:
            for piece in (p for p in self._pieces if p.id in new):
                self._lying.setdefault(self._home[piece.member], set()).add(piece.id)
            return new, set().union(*(self._lying.get(name, set()) for name in step.sub_frames))
        for raising in step.raises:
            new |= self._lying.get(raising.sub_frame, set())
        self._standing |= new
        return new, self._standing
