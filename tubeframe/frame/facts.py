"""What can be found of a frame before any fitting is chosen."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tubeframe.errors import Fact


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
