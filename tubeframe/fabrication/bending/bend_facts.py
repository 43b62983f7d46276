"""What can be found when tubes are bent (lengths in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Fact

if TYPE_CHECKING:
    from tubeframe.fabrication.bending.marks import SetBy
    from tubeframe.frame.node import TubeEnd


@dataclass(frozen=True, slots=True, kw_only=True)
class BendsTooNear(Fact):
    """Two bends that follow each other leave `straight` between them, where a bender wants `least`."""

    mark: str
    bend: int
    straight: float
    least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortAtEnd(Fact):
    """A bend leaves `straight` at an end that is trimmed, where a tube cutter wants `least`."""

    mark: str
    end: TubeEnd
    straight: float
    least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TighterThanShoe(Fact):
    """A bend of a `radius` is tighter than the bender's `shoe` makes."""

    mark: str
    bend: int
    radius: float
    shoe: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LargerThanShoe(Fact):
    """Arcs of a `radius` are larger than the bender's `shoe` makes: they are pulled round a form, or rolled."""

    mark: str
    radius: float
    shoe: float
    made_by: SetBy
    form: float
