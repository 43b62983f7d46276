"""What is put on a tube's ends: feet, base flanges and caps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.vector import any_square_to
from tubeframe.joints.joint import Joint, JointId, PortUse

if TYPE_CHECKING:
    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.member import EndKind
    from tubeframe.joints.joint import Tube


def end_fitting(end: EndKind, tube: str, workshop: Workshop) -> SizedFitting | None:
    """Return the piece for an end of a tube, sized; None where the end takes none."""
    if not end.is_piece:
        return None
    piece = workshop.catalog.end_piece(end.on_floor)
    return workshop.sized(piece, {piece.ports[0].name: workshop.catalog.tube(tube)})


def end_pieces(tube: Tube, workshop: Workshop) -> list[Joint]:
    """Put feet, base flanges and caps onto a tube."""
    made = []
    length = tube.path.length
    for end, kind in ((TubeEnd.A, tube.end_a), (TubeEnd.B, tube.end_b)):
        fitting = end_fitting(kind, tube.size, workshop)
        if fitting is None:
            continue
        inward = tube.path.tangent(0.0) if end is TubeEnd.A else -tube.path.tangent(length)
        point = tube.path.start if end is TubeEnd.A else tube.path.end
        origin = point + inward * (fitting.thickness if kind.shortens else 0.0)
        placement = _standing(from_axes(origin=origin, x=inward, toward=any_square_to(inward)))
        use = PortUse(
            port=fitting.ports[0].name,
            role=PortRole.END,
            tube=tube.id,
            at=0.0 if end is TubeEnd.A else length,
            axis=inward,
            up=placement.x,
            end=end,
        )
        made.append(Joint(id=JointId(""), at=origin, placement=placement, fitting=fitting, uses=(use,)))
    return made


def _standing(placement: Placement) -> Placement:
    """Turn a frame so that its z runs where its x ran."""
    return Placement(origin=placement.origin, x=placement.y, y=placement.z, z=placement.x)
