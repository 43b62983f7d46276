"""What drawings look up of a frame, made once for all of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.scene import Body, TubeBody
from tubeframe.frame.group import in_groups

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.catalog import Catalog
    from tubeframe.design import Draft
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.frame.opening import Opening
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.extent import Extent
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.units import Units
    from tubeframe.joints.joint import BoltWay, Joint, Jointed
    from tubeframe.parts.piece import Parts, Piece


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PartBook:
    """Pieces, joints and boards of a frame, its sizes, what the catalogue says of its tubes, and the units.

    `overall` is the box of the asked size, `extent` that of everything [mm]; `bodies` has every part under its id:
    tubes, then fittings, then boards. `turning` are the tubes of doors and the like.
    """

    members: tuple[Member, ...]
    openings: tuple[Opening, ...]
    turning: frozenset[MemberId]
    parts: Parts
    jointed: Jointed
    joints: tuple[Joint, ...]
    bolts: tuple[BoltWay, ...]
    boards: tuple[Panel, ...]
    overall: Extent
    extent: Extent
    catalog: Catalog
    units: Units
    bodies: Mapping[str, Body]
    piece_of: Mapping[str, Piece]
    joint_of: Mapping[str, Joint]

    def outside(self, piece: Piece) -> float:
        """Return a piece's outside diameter [mm]."""
        return self.catalog.tube(piece.size).outside

    def marked_ids(self) -> dict[str, tuple[str, ...]]:
        """Return the ids of each mark's parts, tubes first."""
        marks = {g.mark: tuple(str(p.id) for p in g.pieces) for g in self.parts.groups}
        return marks | {g.mark: tuple(p.id for p in g.panels) for g in self.parts.panel_groups}


def part_book(design: Draft) -> PartBook:
    """Look up what drawings need of a design."""
    catalog, joints, boards = design.workshop.catalog, design.jointed.joints, design.frame.panels
    tubes = (Body(key=p.id, tubes=(tube_body(catalog, p.size, p.path),)) for p in design.parts.pieces)
    fittings = (Body(key=j.id, pieces=j.body) for j in joints)
    panels = (Body(key=p.id, pieces=(p.box,)) for p in boards)
    return PartBook(
        members=design.frame.members,
        openings=design.frame.openings,
        turning=in_groups(design.frame.groups),
        parts=design.parts,
        jointed=design.jointed,
        joints=joints,
        bolts=design.jointed.bolts,
        boards=boards,
        overall=design.overall,
        extent=design.extent,
        catalog=catalog,
        units=design.workshop.units,
        bodies={b.key: b for b in (*tubes, *fittings, *panels)},
        piece_of={p.id: p for p in design.parts.pieces},
        joint_of={j.id: j for j in joints},
    )


def tube_body(catalog: Catalog, size: str, path: Path) -> TubeBody:
    """Return the body of a tube of a size along a centreline."""
    tube = catalog.tube(size)
    return TubeBody(path=path, outside=tube.outside, bore=tube.bore)
