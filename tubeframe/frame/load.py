"""What holds a frame and what it carries: kept with it for the structural model."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.node import TubeEnd
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """An end that is held, and along which axes."""

    member: str
    end: TubeEnd
    fixes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A load on a panel or a member, in all [N], and which way it pushes.

    On a member it may be spread between two places measured from A [mm]; None for all of it.
    """

    name: str
    on: str
    total: float
    direction: Vec
    span: tuple[float, float] | None = None
