"""Why a kind of fitting is not taken at a node (angles in [degree])."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Better(StrEnum):
    """What one of two kinds that would do has over the other."""

    ASKED_FOR = "asked for"
    CHEAPER = "cheaper"
    PLAINER = "plainer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """It would do as well, but another one was chosen, and by what."""

    chosen: str
    better: Better


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherCount:
    """It takes another number of tubes."""

    runs: int
    branches: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfSwing:
    """Its port does not swing as far as these tubes stand."""

    low: float
    high: float
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mirrored:
    """It would have to be its own mirror image."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherAngle:
    """Its ports stand at another angle than these tubes."""

    has: float
    wants: float


Reason = Spare | OtherCount | OutOfSwing | Mirrored | OtherAngle
