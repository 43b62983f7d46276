"""A change of a frame that was tried: what it costs, and what governs then."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.structure.verdict import Code, Outcome

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import TubeId
    from tubeframe.structure.knee import Knee
    from tubeframe.structure.verdict import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """A tube from the floor to a place of a tube that lies [mm]."""

    under: TubeId
    place: float
    at: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """Parameters as they were changed, tubes as they were added, the sticks that are bought then, and what governs.

    `chosen` marks the cheapest that passes.
    """

    changes: tuple[tuple[str, str], ...]
    sticks: int
    passes: bool
    worst: Verdict | None
    chosen: bool = False
    added: tuple[Knee | Post, ...] = ()


def governing(found: Iterable[Verdict]) -> Verdict | None:
    """Return the verdict that uses most of its limit: of those that fail, else of all; one that folds rules."""
    known = [v for v in found if v.outcome is not Outcome.NEEDS_INPUT]
    failing = [v for v in known if v.outcome is Outcome.FAILS]
    folds = [v for v in failing if v.code is Code.FOLDS]
    rated = [v for v in failing or known if v.ratio is not None]
    return next(iter(folds), max(rated, key=lambda v: v.ratio or 0.0, default=None))


def passes(found: Iterable[Verdict]) -> bool:
    """Whether no verdict fails."""
    return all(v.outcome is not Outcome.FAILS for v in found)
