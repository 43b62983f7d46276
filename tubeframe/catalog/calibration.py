"""A fitting's setback from two tape readings, and a bender's radius from a trial bend."""

from __future__ import annotations

import math
from dataclasses import dataclass


def setback_read(*, reading: float, offcut: float, outside: float, angle: float) -> float:
    """Return the setback of a branch at an angle [degree] to the other tube [mm].

    Args:
        reading: along the branch, from the other tube's far outside face to the branch's far end [mm].
        offcut: length of the branch, cut square [mm].
        outside: outside diameter of the other tube [mm].
        angle: between the two tubes [degree].

    Along the branch the far face lies D/(2 sin A) beyond the other tube's centreline: s = M - B - D/(2 sin A).

    """
    return reading - offcut - far_face(outside, angle)


def far_face(outside: float, angle: float) -> float:
    """Return how far a tube's far face lies beyond its centreline, along a line at an angle [degree] to it [mm]."""
    return outside / 2.0 / math.sin(math.radians(angle))


_SQUARE = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialBend:
    """One trial bend: the arrow on a mark, the hook toward the end that it was measured from (lengths in [mm]).

    `mark` is the mark's distance from that end; `stub` is how far the end then stands off the back of the other leg,
    along the outside of its own. `asked` is the angle that the bender was pulled to, `left` what stays [degree].
    """

    outside: float
    mark: float
    stub: float
    asked: float
    left: float

    @property
    def radius(self) -> float:
        """Radius on the centreline: both backs meet (r + D/2) tan(q/2) beyond where the bend begins [mm]."""
        return (self.stub - self.mark) / math.tan(math.radians(self.left) / 2.0) - self.outside / 2.0

    @property
    def take_up(self) -> float:
        """What a stub of 90 degrees is higher than its mark: r + D/2 [mm]."""
        return self.radius + self.outside / 2.0

    @property
    def gain(self) -> float:
        """What a bend of 90 degrees saves of both legs, measured to their backs: 2 (r + D/2) - pi r/2 [mm]."""
        return 2.0 * self.take_up - math.pi / 2.0 * self.radius

    @property
    def springback(self) -> float:
        """How far past 90 it has to be pulled to leave 90 [degree]."""
        return _SQUARE * (self.asked / self.left - 1.0)
