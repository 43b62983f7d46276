"""A whole tube."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, NewType

from tubeframe.catalog.fitting import OnFloor

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path

MemberId = NewType("MemberId", str)


class EndKind(StrEnum):
    """What is at a tube's end."""

    JOINT = "joint"
    FOOT = "foot"
    BASE_FLANGE = "base-flange"
    CAP = "cap"
    SWIVEL_FOOT = "swivel-foot"
    SWIVEL_BASE = "swivel-base"
    STAKE = "stake"
    OPEN = "open"
    LEVELLING = "levelling"
    CASTER = "caster"

    @property
    def is_piece(self) -> bool:
        """Whether a piece of its own is put on the end."""
        return self is EndKind.CAP or self.on_floor is not None

    @property
    def on_floor(self) -> OnFloor | None:
        """How its piece stands on the floor; None without a piece that does."""
        return {
            EndKind.FOOT: OnFloor.LOOSE,
            EndKind.SWIVEL_FOOT: OnFloor.LOOSE,
            EndKind.BASE_FLANGE: OnFloor.BOLTED,
            EndKind.LEVELLING: OnFloor.LEVELLING,
            EndKind.CASTER: OnFloor.ROLLING,
            EndKind.SWIVEL_BASE: OnFloor.BOLTED,
        }.get(self)

    @property
    def swivels(self) -> bool:
        """Whether its piece turns with a tube that leans."""
        return self in {EndKind.SWIVEL_FOOT, EndKind.SWIVEL_BASE}

    @property
    def is_grounded(self) -> bool:
        """Whether it stands on the ground or in it."""
        return self is EndKind.STAKE or self.on_floor is not None

    @property
    def is_anchored(self) -> bool:
        """Whether the ground holds it against being lifted."""
        return self is EndKind.STAKE or self.on_floor is OnFloor.BOLTED

    @property
    def shortens(self) -> bool:
        """Whether that piece's thickness is taken off the tube; a cap stands outside."""
        return self.on_floor is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One physical tube, before it is split into sticks.

    `path` is its centreline from A to B: to the middle of the joint where a fitting takes an end, else to the end
    itself (to the floor for a foot). `split_at` are places for sleeves, measured along it from A [mm].
    """

    id: MemberId
    tube: str
    path: Path
    end_a: EndKind
    end_b: EndKind
    split_at: tuple[float, ...] = ()

    @property
    def ends(self) -> tuple[EndKind, EndKind]:
        """Both ends, A first."""
        return (self.end_a, self.end_b)

    @property
    def is_straight(self) -> bool:
        """Whether it has no bend."""
        return not self.path.bends
