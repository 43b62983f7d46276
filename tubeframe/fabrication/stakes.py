"""Ground stakes: how far the rod goes up inside a foot, and where the feet are set out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.rules import BEND_CLEARANCE
from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.facts import ShortStake
from tubeframe.frame.member import EndKind
from tubeframe.geometry.units import INCH_MM

if TYPE_CHECKING:
    from tubeframe.catalog.hardware import Stake
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.parts.piece import Parts, Piece

_ROUNDING = 0.01
_IN_A_BEND = 1.5 * INCH_MM
"""A rod that would go on for less into a bend is kept out of it [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StakeLot:
    """Stakes of one tube size: how many, how far a straight rod goes up inside the feet, and its whole length [mm]."""

    tube: str
    stake: Stake | None
    quantity: int
    inside: float
    length: float


def stake_lots(parts: Parts, workshop: Workshop) -> tuple[StakeLot, ...]:
    """Count stakes by tube size; a rod ends short of a bend, since it cannot pass one, but goes on into a wide arc."""
    feet: dict[str, list[_Foot]] = {}
    for piece in parts.pieces:
        for foot in _staked_feet(piece):
            feet.setdefault(piece.size, []).append(foot)
    lots = []
    for tube, found in feet.items():
        stake = workshop.catalog.stake(tube)
        bore = workshop.catalog.tube(tube).bore
        inside = min(stake.in_tube, *(f.takes(stake.diameter, bore) for f in found)) if stake else 0.0
        length = stake.in_ground + inside if stake else 0.0
        lots.append(StakeLot(tube=tube, stake=stake, quantity=len(found), inside=inside, length=length))
    return tuple(lots)


def stake_findings(parts: Parts, workshop: Workshop) -> tuple[Finding, ...]:
    """Tell where the straight above the ground is too short for the rod as it is meant to be."""
    found = []
    for lot in stake_lots(parts, workshop):
        if lot.stake is None or lot.inside >= lot.stake.in_tube - _ROUNDING:
            continue
        pin_fits = lot.inside >= 2.0 * lot.stake.pin_height
        found.append(
            Finding(
                code="F-stake",
                severity=Severity.WARNING if pin_fits else Severity.ERROR,
                subjects=(),
                fact=ShortStake(inside=lot.inside, wanted=lot.stake.in_tube),
            )
        )
    return tuple(found)


def stake_ends(parts: Parts) -> tuple[tuple[float, float], ...]:
    """Return x and y of every staked foot [mm], in the order of the pieces."""
    feet = []
    for piece in parts.pieces:
        for end, point in ((piece.end_a, piece.path.start), (piece.end_b, piece.path.end)):
            if end.kind is EndKind.STAKE:
                feet.append((point.x, point.y))
    return tuple(feet)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Foot:
    """The straight above a staked end, and the radius of the bend that follows; None without one [mm]."""

    straight: float
    radius: float | None

    def takes(self, rod: float, bore: float) -> float:
        """Return how far a straight rod goes up: s along an arc it is s^2/(2 R) off the middle, and so much has room.

        Into a bend too tight for that it does not go at all.
        """
        along = math.sqrt(max(0.0, 2.0 * (self.radius or 0.0) * (bore - rod) / 2.0))
        return self.straight + (along if along > _IN_A_BEND else -BEND_CLEARANCE)


def _staked_feet(piece: Piece) -> list[_Foot]:
    """Return what is above each staked end of a piece."""
    length, bends = piece.cut_length, piece.path.bends
    feet = [_Foot(straight=length, radius=None)] * 2
    if bends:
        (first, bend), (last, other) = bends[0], bends[-1]
        feet = [
            _Foot(straight=first, radius=bend.radius),
            _Foot(straight=length - last - other.length, radius=other.radius),
        ]
    return [foot for end, foot in zip((piece.end_a, piece.end_b), feet, strict=True) if end.kind is EndKind.STAKE]
