"""One step of the assembly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.caution import Caution
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import JointId, TubeId


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A new part is drawn this far off its place, and comes in the opposite way [mm]."""

    what: str
    direction: Vec
    distance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What is added, how it is shown, and what is done and checked; cautions are read first."""

    number: int
    title: str
    tubes: tuple[TubeId, ...]
    joints: tuple[JointId, ...]
    panels: tuple[str, ...]
    moves: tuple[Move, ...]
    sub_frame: str
    hands: int
    tool: str
    action: tuple[str, ...]
    check: str
    cautions: tuple[Caution, ...]
