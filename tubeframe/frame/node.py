"""A place where tubes meet."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.member import MemberId
    from tubeframe.geometry.vector import Vec


class Role(StrEnum):
    """Whether a tube passes through a node or ends there."""

    RUN = "run"
    BRANCH = "branch"


class TubeEnd(StrEnum):
    """The names of a tube's ends."""

    A = "a"
    B = "b"

    @property
    def other(self) -> TubeEnd:
        """The other end."""
        return TubeEnd.B if self is TubeEnd.A else TubeEnd.A


@dataclass(frozen=True, slots=True, kw_only=True)
class Incidence:
    """One tube at a node.

    `at` is the distance along its centreline from A [mm], `point` that place [mm], `way` the direction from the node
    into a branch, or a run's direction from A to B. `end` is the end of a branch that is there.
    """

    member: MemberId
    role: Role
    at: float
    point: Vec
    way: Vec
    end: TubeEnd | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """Tubes that meet. With a coupler each has its own point; `at` is then the middle between them [mm]."""

    at: Vec
    incidences: tuple[Incidence, ...]

    @property
    def runs(self) -> tuple[Incidence, ...]:
        """The tubes that pass through."""
        return tuple(i for i in self.incidences if i.role is Role.RUN)

    @property
    def branches(self) -> tuple[Incidence, ...]:
        """The tubes that end here."""
        return tuple(i for i in self.incidences if i.role is Role.BRANCH)
