"""A tube as it is cut and bent, and the groups of pieces that are alike."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.member import EndKind, MemberId
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.path import Path
    from tubeframe.joints.joint import JointId, TubeId


class Hand(StrEnum):
    """Which of a mirror pair a piece is."""

    NONE = ""
    LEFT = "L"
    RIGHT = "R"


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceEnd:
    """A cut end: what is there, in which joint and port, how far from the node it stops [mm], and its turn [degree]."""

    kind: EndKind
    setback: float
    joint: JointId | None = None
    port: str | None = None
    roll: float | None = None
    swing_angle: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """Where a fitting's middle sits on a tube that passes through it: from cut end A [mm], turned by [degree].

    `sense` is 1 when the port's axis runs from A to B, else -1.
    """

    from_a: float
    roll: float
    sense: int
    joint: JointId
    port: str
    swing_angle: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceBend:
    """A bend: its start from cut end A [mm], its angle [degree], radius [mm], and turn [degree]."""

    start_from_a: float
    angle: float
    radius: float
    roll: float

    @property
    def length(self) -> float:
        """Length along the centreline [mm]."""
        return self.radius * math.radians(self.angle)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One tube as it is cut. `path` is its centreline between the cut ends, A first; lengths in [mm].

    `allowance_a` and `allowance_b` are cut off after
    bending. `mark` and `is_reversed` come with its group.
    """

    id: TubeId
    member: MemberId
    size: str
    path: Path
    end_a: PieceEnd
    end_b: PieceEnd
    stations: tuple[Station, ...]
    bends: tuple[PieceBend, ...]
    cut_rounded: float
    allowance_a: float
    allowance_b: float
    mark: str = ""
    is_reversed: bool = False

    @property
    def cut_length(self) -> float:
        """Exact length between the cut ends, along the tube [mm]."""
        return self.path.length

    @property
    def stick_length(self) -> float:
        """What it takes of a stick [mm]: the rounded cut length and what the bender needs at both ends."""
        return self.cut_rounded + self.allowance_a + self.allowance_b


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceGroup:
    """Pieces that are made alike; `first` is the one that the lists show."""

    mark: str
    hand: Hand
    pieces: tuple[Piece, ...]

    @property
    def first(self) -> Piece:
        """The piece stated first."""
        return self.pieces[0]

    @property
    def quantity(self) -> int:
        """How many."""
        return len(self.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelGroup:
    """Boards that are cut alike."""

    mark: str
    panels: tuple[Panel, ...]

    @property
    def first(self) -> Panel:
        """The board stated first."""
        return self.panels[0]

    @property
    def quantity(self) -> int:
        """How many."""
        return len(self.panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """All pieces, in the order stated, and their groups, in the order of the marks."""

    pieces: tuple[Piece, ...]
    groups: tuple[PieceGroup, ...]
    panel_groups: tuple[PanelGroup, ...]

    def piece(self, tube: TubeId) -> Piece:
        """Return the piece of that tube."""
        return next(p for p in self.pieces if p.id == tube)
