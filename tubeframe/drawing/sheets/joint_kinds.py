"""The kinds of joints of a frame, and what is drawn of one: the fitting, its bolts' heads and stubs of its tubes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.drawing.model.scene import ISOMETRIC, Body
from tubeframe.drawing.views.part_book import tube_body
from tubeframe.fabrication.fitting_count import tube_names
from tubeframe.geometry.convex import Cylinder

if TYPE_CHECKING:
    from tubeframe.catalog.measured import Sizes
    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, PortUse
    from tubeframe.parts.piece import Piece

_NEAR_END = 0.3
"""A stub is named at this share of its free length, from where it is cut short."""
_HEAD_WIDE = 10.0 / 6.0
"""Width of a socket screw's head over its height: M6 of ISO 4762, from memory."""
_FACES = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class JointKind:
    """Joints of one fitting for the same sizes of tube: their sign (F1, F2 and so on), and the one that is drawn."""

    sign: str
    name: str
    about: str
    tubes: str
    shown: Joint
    fitting: SizedFitting
    joints: tuple[Joint, ...]

    @property
    def setbacks(self) -> tuple[float, float]:
        """The least and the largest distance from the middle to a cut end [mm]; equal where all are one."""
        found = [j.setback(u) for j in self.joints for u in j.uses if u.role is PortRole.BRANCH]
        return (min(found, default=0.0), max(found, default=0.0))

    @property
    def angles(self) -> tuple[int, ...]:
        """The angles of its branches [degree]."""
        kind = self.fitting.kind
        return tuple(round(kind.angle_of(p)) for p in kind.ports_of(PortRole.BRANCH))

    @property
    def has_branch(self) -> bool:
        """Whether a tube ends beside another one."""
        return not self.fitting.kind.is_sleeve and any(u.role is PortRole.BRANCH for u in self.shown.uses)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stub:
    """What is drawn of a tube: its body, and a point on it out of the fitting [mm]."""

    body: Body
    at: Vec
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A bolt's head: its body, the middle of its face [mm], and the way it faces."""

    body: Body
    at: Vec
    way: Vec


def joint_kinds(book: PartBook) -> tuple[JointKind, ...]:
    """Return every kind of joint once, in the catalogue's order; no caps, feet, or joints without a fitting."""
    groups: dict[tuple[int, tuple[float, ...], Sizes], list[tuple[Joint, SizedFitting]]] = {}
    catalog = book.catalog
    order = [k.key for k in catalog.kinds]
    for joint in book.joints:
        if joint.fitting is not None and not joint.is_end_piece:
            sizes = joint.fitting.sizes
            thickest = tuple(-catalog.tube(size).outside for size in sizes)
            groups.setdefault((order.index(joint.kind), thickest, sizes), []).append((joint, joint.fitting))
    found = []
    for number, (_, group) in enumerate(sorted(groups.items(), key=lambda entry: entry[0]), start=1):
        joints = [joint for joint, _ in group]
        shown, fitting = max(group, key=lambda one: _shows(book, one[0]))
        found.append(
            JointKind(
                sign=f"F{number}",
                name=fitting.kind.key,
                about=fitting.kind.about,
                tubes=tube_names(fitting, catalog),
                shown=shown,
                fitting=fitting,
                joints=tuple(joints),
            )
        )
    return tuple(found)


def stubs(book: PartBook, kind: JointKind, past: float) -> tuple[Stub, ...]:
    """Cut the tubes of a kind's shown joint short so many diameters past the fitting, or where they end."""
    return tuple(_stub(book, kind, use, past) for use in kind.shown.uses)


def heads(book: PartBook, kind: JointKind) -> tuple[Head, ...]:
    """Return the heads of a kind's bolts, on the sides where they face."""
    ways = [w for w in book.bolts if w.joint == kind.shown.id]
    high = book.catalog.bolt.head_height
    found = []
    for number, (way, place) in enumerate(zip(ways, kind.fitting.bolts, strict=True), start=1):
        foot, face = way.at + way.head * place.half, way.at + way.head * (place.half + high)
        screw = Cylinder(start=foot, end=face, radius=high * _HEAD_WIDE / 2.0)
        found.append(Head(body=Body(key=f"head {number}", pieces=(screw,)), at=face, way=way.head))
    return tuple(found)


def _stub(book: PartBook, kind: JointKind, use: PortUse, diameters: float) -> Stub:
    piece = book.piece_of[use.tube]
    port = kind.fitting.port(use.port)
    past = diameters * port.outside
    low, high = _held(piece, kind.shown, use, port.grip)
    first, last = max(low - past, 0.0), min(high + past, piece.cut_length)
    before, after = (
        piece.path.point(first + (low - first) * _NEAR_END),
        piece.path.point(last - (last - high) * _NEAR_END),
    )
    longer = (low - first) - (last - high)
    is_before = longer > 1.0 or (longer > -1.0 and ISOMETRIC.depth(before) > ISOMETRIC.depth(after))
    role = "end" if kind.fitting.kind.is_sleeve else use.role.value
    body = Body(key=f"stub {use.port}", tubes=(tube_body(book.catalog, piece.size, piece.path.part(first, last)),))
    return Stub(body=body, at=before if is_before else after, label=f"{role} {piece.mark}")


def _held(piece: Piece, joint: Joint, use: PortUse, grip: float) -> tuple[float, float]:
    """Return from where to where a fitting holds a piece, from its cut end A [mm]."""
    if use.end is None:
        middle = next(s.from_a for s in piece.stations if s.joint == joint.id and s.port == use.port)
        return (middle - grip / 2.0, middle + grip / 2.0)
    is_a = (piece.end_a.joint, piece.end_a.port) == (joint.id, use.port)
    return (0.0, grip) if is_a else (piece.cut_length - grip, piece.cut_length)


def _shows(book: PartBook, joint: Joint) -> int:
    """Count the bolts whose heads face the viewer."""
    toward = ISOMETRIC.to_viewer.unit
    return sum(1 for w in book.bolts if w.joint == joint.id and w.head.dot(toward) > _FACES)
