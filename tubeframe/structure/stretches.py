"""A solver's model, and which of its bars is which part of a tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import MEET_MM

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.tube import TubeSize
    from tubeframe.frame.member import EndKind
    from tubeframe.frame.node import TubeEnd
    from tubeframe.joints.joint import JointId, Tube, TubeId
    from tubeframe.structure.solver.model import Model


@dataclass(frozen=True, slots=True, kw_only=True)
class LetGo:
    """Ports of joints that do not hold a tube's end: in which it spins about itself, and in which it is hinged."""

    spinning: frozenset[tuple[JointId, str]] = frozenset()
    hinged: frozenset[tuple[JointId, str]] = frozenset()


HELD_FAST = LetGo()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A bar's part of a tube, between two places from the tube's node at A [mm]; `bar` is its number."""

    tube: TubeId
    low: float
    high: float
    bar: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Foot:
    """An end that stands on the ground or is stated as held, and its point's number."""

    tube: TubeId
    end: TubeEnd
    kind: EndKind
    point: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """A model, and which bar is what; `of_tube` from A to B; `at` each tube's stations by their points' numbers."""

    model: Model
    tubes: Mapping[TubeId, Tube]
    sizes: Mapping[TubeId, TubeSize]
    stretches: tuple[Stretch, ...]
    of_tube: Mapping[TubeId, tuple[Stretch, ...]]
    at: Mapping[TubeId, tuple[tuple[float, int], ...]]
    feet: tuple[Foot, ...]

    def point_at(self, tube: TubeId, place: float) -> int:
        """Return the number of the point nearest to a place along a tube [mm]."""
        return min(self.at[tube], key=lambda found: abs(found[0] - place))[1]

    def beside(self, tube: TubeId, place: float) -> tuple[Stretch | None, Stretch | None]:
        """Return the bars that end and begin at a place along a tube [mm]."""
        bars = self.of_tube[tube]
        before = next((s for s in bars if abs(s.high - place) <= 2.0 * MEET_MM), None)
        after = next((s for s in bars if abs(s.low - place) <= 2.0 * MEET_MM), None)
        return before, after
