"""Ground stakes: how far the rod goes up inside a foot, and where the feet are set out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.rules import BEND_CLEARANCE
from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.facts import ShortStake
from tubeframe.frame.member import EndKind

if TYPE_CHECKING:
    from tubeframe.catalog.hardware import Stake
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.parts.piece import Parts, Piece

_ROUNDING = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class StakeLot:
    """Stakes of one tube size: how many, how far a straight rod goes up inside the feet, and its whole length [mm]."""

    tube: str
    stake: Stake | None
    quantity: int
    inside: float
    length: float


def stake_lots(parts: Parts, workshop: Workshop) -> tuple[StakeLot, ...]:
    """Count stakes by tube size; a rod ends short of the first bend, since it cannot pass one."""
    straights: dict[str, list[float]] = {}
    for piece in parts.pieces:
        for straight in _staked_straights(piece):
            straights.setdefault(piece.size, []).append(straight)
    lots = []
    for tube, found in straights.items():
        stake = workshop.catalog.stake(tube)
        inside = min(stake.in_tube, *(s - BEND_CLEARANCE for s in found)) if stake else 0.0
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


def _staked_straights(piece: Piece) -> list[float]:
    """Return the straight above each staked end of a piece [mm]."""
    length = piece.cut_length
    first = piece.path.bends[0][0] if piece.path.bends else length
    last = length - piece.path.bends[-1][0] - piece.path.bends[-1][1].length if piece.path.bends else length
    ends = ((piece.end_a, first), (piece.end_b, last))
    return [straight for end, straight in ends if end.kind is EndKind.STAKE]
