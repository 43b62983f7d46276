"""Work that a frame asks for besides its tubes, fittings and boards, such as a cover that is clipped on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class JobKind(StrEnum):
    """What is done with things that are bought for it."""

    SOCKETS = "sockets"
    THRESHOLDS = "thresholds"
    BASEBOARDS = "baseboards"
    FLANGES = "flanges"
    POCKETS = "pockets"
    WALL_TIES = "wall-ties"
    LATCH = "latch"
    COVER_ENDS = "cover-ends"
    COVER = "cover"
    COVER_DOOR = "cover-door"
    ROLL_UP = "roll-up"
    BRAKES = "brakes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A kind of work, and the lengths that it is told with [mm].

    Sockets: how far they stand up. Thresholds: where studs stand, from the left foot's middle. Baseboards: from anchor
    to anchor. Wall ties: from the wall to the middle of a back post. Cover: what is tucked in at the sides, what is
    left past both ends, from clip to clip. Ends and doors: what is folded round.
    """

    kind: JobKind
    lengths: tuple[float, ...] = ()

    @property
    def wants(self) -> int:
        """How many lengths it is told with; any number of places for thresholds."""
        return _LENGTHS.get(self.kind, 0)

    @property
    def is_told(self) -> bool:
        """Whether it has as many lengths as it wants."""
        return len(self.lengths) == self.wants or (self.kind is JobKind.THRESHOLDS and bool(self.lengths))


_LENGTHS = {
    JobKind.SOCKETS: 1,
    JobKind.THRESHOLDS: 1,
    JobKind.BASEBOARDS: 1,
    JobKind.WALL_TIES: 1,
    JobKind.COVER_ENDS: 1,
    JobKind.COVER: 3,
    JobKind.COVER_DOOR: 1,
}
