"""A frame's parts by their numbers: where they take up room, which ports tie them, what they weigh."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.port_face import Fit, Load, Number, Part, PortFace, is_split
from tubeframe.assembly.step import PartKind
from tubeframe.catalog.fitting import OnFloor
from tubeframe.frame.member import EndKind
from tubeframe.geometry.chords import chorded
from tubeframe.geometry.convex import Convex, Cylinder
from tubeframe.geometry.extent import of_convex
from tubeframe.geometry.sweep import shape_of
from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.joints.obstacles import Brick, body_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Jointed, PortUse
    from tubeframe.parts.piece import Parts, Piece

PARED = 0.5
"""Solids are pared by this all round [mm]: what only touches is not in the way."""
_SAG = 1.0
"""Bends are looked at in chords that stay this near to them [mm]."""


class Model:
    """Everything that is asked of the parts again and again, looked up once."""

    def __init__(self, frame: Frame, jointed: Jointed, parts: Parts, workshop: Workshop) -> None:
        """Give each part its number."""
        self.frame, self.jointed, self.workshop = frame, jointed, workshop
        self.pieces = parts.pieces
        self.marks = {p.id: p.mark for p in parts.pieces}
        catalog = workshop.catalog
        self.tube_number = {p.id: n for n, p in enumerate(parts.pieces)}
        self.first_joint = len(parts.pieces)
        self.first_panel = self.first_joint + len(jointed.joints)
        made = [
            _part(n, PartKind.MEMBER, p.id, list(_bars(p, catalog.tube(p.size).outside / 2.0)))
            for n, p in enumerate(parts.pieces)
        ]
        made += [_part(self.first_joint + n, PartKind.JOINT, j.id, list(j.body)) for n, j in enumerate(jointed.joints)]
        made += [_part(self.first_panel + n, PartKind.PANEL, p.id, [p.box]) for n, p in enumerate(frame.panels)]
        self.parts = tuple(made)
        self._numbers = {(p.kind, p.id): p.number for p in made}
        self.fits = tuple(self._fit(self.first_joint + n, j) for n, j in enumerate(jointed.joints))
        self.fits_of: tuple[tuple[Fit, ...], ...] = self._fits_of()
        self.masses = [p.cut_length * catalog.tube(p.size).mass_per_length for p in parts.pieces]
        self.floor = min((p.z for n in range(self.first_joint) for p in self._ends(n)), default=0.0)

        self.loads = {n: self._load(n) for n in range(len(made)) if not self.is_joint(n)}

    def number(self, kind: PartKind, name: str) -> Number:
        """Return the number of a part by its kind and id."""
        return self._numbers[kind, name]

    def fit(self, number: Number) -> Fit:
        """Return a joint."""
        return self.fits[number - self.first_joint]

    def is_tube(self, number: Number) -> bool:
        """Whether a part is a tube."""
        return number < self.first_joint

    def is_joint(self, number: Number) -> bool:
        """Whether a part is a fitting."""
        return self.first_joint <= number < self.first_panel

    def piece(self, number: Number) -> Piece:
        """Return a tube as it is cut."""
        return self.pieces[number]

    def panel(self, number: Number) -> Panel:
        """Return a board."""
        return self.frame.panels[number - self.first_panel]

    def neighbours(self, tube: Number) -> Iterator[tuple[Fit, Number]]:
        """Give the tubes that share a fitting with one, each with the fitting."""
        for fit in self.fits_of[tube]:
            for face in fit.faces:
                if face.tube != tube:
                    yield fit, face.tube

    def middle(self, tube: Number) -> Vec:
        """Return the middle between a tube's ends [mm]."""
        path = self.pieces[tube].path
        return (path.start + path.end) * 0.5

    def feet(self, tube: Number) -> tuple[Vec, ...]:
        """Return a tube's ends that stand on the floor, or the lowest there is [mm]."""
        limit = self.floor + self.outside(tube) / 2.0 + LOWER_MM
        return tuple(p for p in self._ends(tube) if p.z <= limit)

    def is_anchored(self, tube: Number) -> bool:
        """Whether a tube's foot is kept upright by a stake or a flange on the floor."""
        piece = self.pieces[tube]
        return any(e.kind is EndKind.STAKE or e.kind.on_floor is OnFloor.BOLTED for e in (piece.end_a, piece.end_b))

    def is_staked(self, tube: Number) -> bool:
        """Whether a tube is slipped over a stake."""
        piece = self.pieces[tube]
        return any(e.kind is EndKind.STAKE for e in (piece.end_a, piece.end_b))

    def outside(self, tube: Number) -> float:
        """Return a tube's outside diameter [mm]."""
        return self.workshop.catalog.tube(self.pieces[tube].size).outside

    def _load(self, number: Number) -> Load:
        if not self.is_tube(number):
            panel = self.panel(number)
            density = self.workshop.catalog.material(panel.material).density * 1e-9
            centre = panel.box.centre
            mass = panel.length * panel.width * panel.thickness * density
            return Load(mass=mass, at=(centre.x, centre.y))
        path = self.pieces[number].path
        middles = [(p.point(p.length / 2.0), p.length / path.length) for p in path.pieces]
        feet = tuple((p.x, p.y) for p in self.feet(number))
        return Load(
            mass=self.masses[number],
            at=(sum(p.x * share for p, share in middles), sum(p.y * share for p, share in middles)),
            feet=feet,
            is_anchored=bool(feet) and self.is_anchored(number),
        )

    def _ends(self, tube: Number) -> tuple[Vec, Vec]:
        path = self.pieces[tube].path
        return (path.start, path.end)

    def _to_ends(self, tube: Number, joint: Joint, use: PortUse) -> tuple[float, float]:
        piece = self.pieces[tube]
        station = next((s for s in piece.stations if (s.joint, s.port) == (joint.id, use.port)), None)
        if station is None:
            return (0.0, 0.0)
        behind, before = station.from_a, piece.cut_length - station.from_a
        return (behind, before) if station.sense > 0 else (before, behind)

    def _fits_of(self) -> tuple[tuple[Fit, ...], ...]:
        found: list[list[Fit]] = [[] for _ in self.pieces]
        for fit in self.fits:
            for tube in dict.fromkeys(f.tube for f in fit.faces):
                found[tube].append(fit)
        return tuple(tuple(f) for f in found)

    def _fit(self, number: Number, joint: Joint) -> Fit:
        mouths = {port: s.brick.half_y.unit for port, s in body_of(joint) if isinstance(s, Brick)}
        fitting = joint.fitting
        faces = []
        for use in joint.uses:
            tube = self.tube_number[use.tube]
            mouth = None
            if fitting is not None and is_split(fitting.kind):
                mouth = -use.up if fitting.kind.is_coupler else mouths.get(use.port)
            faces.append(
                PortFace(
                    use=use,
                    tube=tube,
                    axis=use.axis,
                    mouth=mouth,
                    outside=self.outside(tube),
                    depth=joint.held(use) - joint.setback(use) if fitting else 0.0,
                    to_ends=self._to_ends(tube, joint, use),
                    is_unknown=fitting is None,
                )
            )
        return Fit(number=number, joint=joint, faces=tuple(faces))


def _part(number: Number, kind: PartKind, name: str, solids: list[Convex]) -> Part:
    return Part(
        number=number,
        kind=kind,
        id=name,
        shapes=tuple(shape_of(s, PARED) for s in solids),
        boxes=tuple(of_convex(s) for s in solids),
    )


def _bars(piece: Piece, radius: float) -> Iterator[Cylinder]:
    for part in chorded(piece.path, _SAG):
        yield Cylinder(start=part.start, end=part.end, radius=radius)
