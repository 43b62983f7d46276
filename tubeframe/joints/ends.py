"""What is put on a tube's ends: feet, base flanges and caps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec, X, Z, angle_deg, any_square_to
from tubeframe.joints.joint import Joint, JointId, PortUse

if TYPE_CHECKING:
    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.member import EndKind
    from tubeframe.geometry.path import Path
    from tubeframe.joints.joint import Tube


_FLAT_DEG = 1.0
"""A tube that lies flatter is no leg: what it stands on is sized as if it stood at this angle [degree]."""


def end_fitting(kind: EndKind, tube: str, inward: Vec, workshop: Workshop) -> SizedFitting | None:
    """Return the piece for an end of a tube that goes on inward from it, sized; None where the end takes none."""
    if not kind.is_piece:
        return None
    piece = workshop.catalog.end_piece(kind.on_floor, swivels=kind.swivels)
    angle = max(_FLAT_DEG, 90.0 - angle_deg(_up(inward), inward)) if piece.swings else None
    return workshop.sized(piece, {piece.ports[0].name: workshop.catalog.tube(tube)}, angle)


def end_pieces(tube: Tube, workshop: Workshop) -> list[Joint]:
    """Put feet, base flanges and caps onto a tube."""
    made = []
    length = tube.path.length
    for end, kind in ((TubeEnd.A, tube.end_a), (TubeEnd.B, tube.end_b)):
        inward = inward_of(tube.path, end)
        fitting = end_fitting(kind, tube.size, inward, workshop)
        if fitting is None:
            continue
        point = tube.path.start if end is TubeEnd.A else tube.path.end
        origin = point + inward * (fitting.taken_off if kind.shortens else 0.0)
        placement = _placed(fitting, origin, inward)
        use = PortUse(
            port=fitting.ports[0].name,
            role=PortRole.END,
            tube=tube.id,
            at=0.0 if end is TubeEnd.A else length,
            axis=inward,
            up=placement.direction(fitting.ports[0].up),
            end=end,
            swing_angle=fitting.ports[0].swing_angle,
        )
        made.append(Joint(id=JointId(""), at=origin, placement=placement, fitting=fitting, uses=(use,)))
    return made


def inward_of(path: Path, end: TubeEnd) -> Vec:
    """Return the way that a tube goes on from an end."""
    return path.tangent(0.0) if end is TubeEnd.A else -path.tangent(path.length)


def _up(inward: Vec) -> Vec:
    """Return the way up from what a tube stands on."""
    return Z if inward.z >= 0.0 else -Z


def _placed(fitting: SizedFitting, origin: Vec, inward: Vec) -> Placement:
    """Put a piece along its tube; one that swings upright, its x the way that the tube leans."""
    if fitting.ports[0].swing_angle is None:
        return _standing(from_axes(origin=origin, x=inward, toward=any_square_to(inward)))
    up = _up(inward)
    lean = inward.across(up)
    way = lean.unit if lean.length > TINY else X
    return from_axes(origin=origin, x=way, toward=up.cross(way))


def _standing(placement: Placement) -> Placement:
    """Turn a frame so that its z runs where its x ran."""
    return Placement(origin=placement.origin, x=placement.y, y=placement.z, z=placement.x)
