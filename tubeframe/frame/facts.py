"""What can be found of a frame before any fitting is chosen."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.errors import Fact

if TYPE_CHECKING:
    from tubeframe.frame.node import TubeEnd


class Push(StrEnum):
    """A way in which a frame is pushed out of its shape."""

    LENGTHWISE = "lengthwise"
    SIDEWAYS = "sideways"
    TWIST = "twist"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unbraced(Fact):
    """Nothing leans against these pushes."""

    frame: str
    against: tuple[Push, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapped(Fact):
    """An end that just missed a tube was put onto it; `gap` is how far it was off [mm]."""

    member: str
    end: TubeEnd
    onto: str
    gap: float


class Scaled(StrEnum):
    """What says that the lengths of a frame are of no frame that anybody builds."""

    LONG = "tubes too long"
    SHORT = "tubes too short"
    BOARD = "a board too large"


@dataclass(frozen=True, slots=True, kw_only=True)
class OddScale(Fact):
    """Lengths that make no sense: `size` is that of the middle one of the tubes, or of the board [mm]."""

    frame: str
    sign: Scaled
    size: float
