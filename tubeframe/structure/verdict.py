"""What was found of a frame's strength, as typed values; sentences are made of them by `words`."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.errors import Fact, Finding, Severity

if TYPE_CHECKING:
    from tubeframe.catalog.limits import Limit
    from tubeframe.structure.knee import Knee


class Code(StrEnum):
    """What is looked at."""

    STRENGTH = "V-strength"
    SAG = "V-sag"
    SWAY = "V-sway"
    FOLDS = "V-folds"
    BUCKLING = "V-buckling"
    TIP = "V-tip"
    SLIP = "V-slip"
    TWIST = "V-twist"
    CRUSH = "V-crush"
    WIND = "V-wind"
    ANCHOR = "V-anchor"
    SNOW = "V-snow"
    ROAD = "V-road"


class Outcome(StrEnum):
    """How it stands."""

    OK = "ok"
    WARNING = "warning"
    FAILS = "fails"
    NEEDS_INPUT = "needs input"


class Unit(StrEnum):
    """What a value is measured in."""

    SHARE = "1"
    FORCE = "N"
    MOMENT = "N mm"
    LENGTH = "mm"
    STRESS = "MPa"
    COUNT = "ways"


class Missing(StrEnum):
    """What only the user knows."""

    LOAD = "load"
    WIND = "wind"
    SNOW = "snow"
    ANCHOR = "anchor"


class More(StrEnum):
    """What goes with a value, in words."""

    FREQUENCY = "frequency"
    CARRIES = "carries"
    SLIDES = "slides first"
    TIED = "must be tied"
    CLAMPS_ALONE = "clamps alone"
    UPLIFT = "uplift"
    UNPINNED = "unpinned"
    SECOND_ORDER = "second order"
    GIVES_WAY = "gives way"
    TESTED = "tested"
    TURNS = "turns until the rest carries it"
    BOARD_APART = "board apart"


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """Something beside the value, with its number where it has one (Hz, N, or a ratio)."""

    what: More
    value: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict(Fact):
    """One thing that was looked at.

    `case` is the load's name, `where` the tubes or the joint that govern; `value` and `limit` are in `unit`; `over`
    says whether the value has to be over the limit. `bounds` are the values with clamps taken as soft and as stiff as
    they may be. `assumptions` are the rows of the limits that it rests on. `knees` are those that stop it from folding.
    """

    code: Code
    outcome: Outcome
    case: str
    where: tuple[str, ...]
    value: float | None
    limit: float | None
    unit: Unit
    assumptions: tuple[Limit, ...]
    bounds: tuple[float, float] | None = None
    missing: Missing | None = None
    notes: tuple[Note, ...] = ()
    over: bool = False
    knees: tuple[Knee, ...] = ()

    @property
    def ratio(self) -> float | None:
        """How much of what is allowed is used: over 1 is too much; None without a value."""
        if self.value is None or self.limit is None:
            return None
        above, below = (self.limit, self.value) if self.over else (self.value, self.limit)
        return above / below if below else None


def finding(verdict: Verdict) -> Finding | None:
    """Return a verdict that fails as a finding: an error where the frame folds, else a warning; None for the others."""
    if verdict.outcome is not Outcome.FAILS:
        return None
    severity = Severity.ERROR if verdict.code is Code.FOLDS else Severity.WARNING
    return Finding(code=verdict.code.value, severity=severity, subjects=verdict.where, fact=verdict)
