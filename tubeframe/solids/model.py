"""The whole frame in solids: every shape made once, placed as often as it is used."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Any

from tubeframe.fabrication.fitting_count import tube_names
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import SAME_LENGTH_MM
from tubeframe.geometry.vector import any_square_to
from tubeframe.solids.fitting import fitting_solid
from tubeframe.solids.panel import panel_solid
from tubeframe.solids.tube import tube_solid

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Sequence

    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.design import Design
    from tubeframe.geometry.path import Path
    from tubeframe.joints.joint import Joint
    from tubeframe.parts.piece import PanelGroup, Parts, Piece

_ANGLE_DECIMALS = 6


class Paint(Enum):
    """The groups of parts and their plain colours, red green blue from 0 to 1."""

    TUBE = (0.72, 0.74, 0.76)
    FITTING = (0.38, 0.40, 0.42)
    BOARD = (0.80, 0.70, 0.54)


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """A shape under its name: the mark of tubes and boards, the kind and size of a fitting."""

    name: str
    shape: Any
    paint: Paint


@dataclass(frozen=True, slots=True, kw_only=True)
class Occurrence:
    """A product at a place, under the id of the tube, joint or board."""

    name: str
    product: Product
    placement: Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """All products, each once, and all occurrences, in the order of the design."""

    name: str
    products: tuple[Product, ...]
    occurrences: tuple[Occurrence, ...]


def model_of(design: Design) -> Model:
    """Make the solids of a design."""
    return build_model(design.parts, design.jointed.joints, design.workshop.catalog, name=design.frame.name)


def build_model(parts: Parts, joints: Sequence[Joint], catalog: Catalog, *, name: str) -> Model:
    """Make the solids of a frame's parts; a joint that no fitting takes has none."""
    shelf = _Shelf()
    found = [
        *(_tube(p, catalog, shelf) for p in parts.pieces),
        *(_clamp(j, j.fitting, catalog, shelf) for j in joints if j.fitting),
        *(o for g in parts.panel_groups for o in _boards(g, shelf)),
    ]
    return Model(name=name, products=shelf.products, occurrences=tuple(found))


class _Shelf:
    """The products while they are made: one for each key, no name twice, and no tube's shape made twice."""

    def __init__(self) -> None:
        self._made: dict[Hashable, Product] = {}
        self._tubes: list[tuple[TubeSize, Path, Any]] = []

    @property
    def products(self) -> tuple[Product, ...]:
        """All that were made, in the order of their first use."""
        return tuple(self._made.values())

    def product(self, key: Hashable, name: str, paint: Paint, shape: Callable[[], Any]) -> Product:
        """Return the product of that key; make it when there is none."""
        if key not in self._made:
            self._made[key] = Product(name=self._free(name), shape=shape(), paint=paint)
        return self._made[key]

    def tube(self, mark: str, path: Path, size: TubeSize) -> Product:
        """Return the product of a tube.

        Marks that differ in their fittings alone share a shape. A mark with two shapes becomes two products: it
        forgives a degree in the turn of a bend, which would put a solid's far end off.
        """
        known = (n for n, (other, way, _) in enumerate(self._tubes) if other == size and _same(way, path))
        number = next(known, len(self._tubes))
        if number == len(self._tubes):
            self._tubes.append((size, path, tube_solid(path, size.outside, size.bore)))
        return self.product(("tube", mark, number), mark, Paint.TUBE, lambda: self._tubes[number][2])

    def _free(self, name: str) -> str:
        taken = {p.name for p in self._made.values()}
        names = (name if n == 1 else f"{name} ({n})" for n in range(1, len(taken) + 2))
        return next(n for n in names if n not in taken)


def _tube(piece: Piece, catalog: Catalog, shelf: _Shelf) -> Occurrence:
    """Place a tube by its end A, or by the end that is A on the first of its mark."""
    path = piece.path.reversed() if piece.is_reversed else piece.path
    placement = _at_start(path)
    product = shelf.tube(piece.mark, path.seen_from(placement), catalog.tube(piece.size))
    return Occurrence(name=piece.id, product=product, placement=placement)


def _at_start(path: Path) -> Placement:
    """Return the frame at a tube's start: z along it, x to the inside of the first bend."""
    way = path.tangent(0.0)
    toward = path.bends[0][1].inward if path.bends else any_square_to(way)
    turned = from_axes(origin=path.start, x=way, toward=toward)
    return Placement(origin=path.start, x=turned.y, y=turned.z, z=turned.x)


def _same(one: Path, other: Path) -> bool:
    """Whether two centrelines coincide: all their straights and bends at both ends and half way."""
    if [type(p) for p in one.pieces] != [type(p) for p in other.pieces]:
        return False
    return all(
        a.point(a.length * part).distance(b.point(b.length * part)) <= SAME_LENGTH_MM
        for a, b in zip(one.pieces, other.pieces, strict=True)
        for part in (0.0, 0.5, 1.0)
    )


def _clamp(joint: Joint, fitting: SizedFitting, catalog: Catalog, shelf: _Shelf) -> Occurrence:
    outsides = tuple(p.outside for p in fitting.ports)
    angle = next((round(p.swing_angle, _ANGLE_DECIMALS) for p in fitting.ports if p.swing_angle is not None), None)
    product = shelf.product(
        ("fitting", fitting.kind.key, outsides, angle),
        _clamp_name(fitting, angle, catalog),
        Paint.FITTING,
        lambda: fitting_solid(fitting),
    )
    return Occurrence(name=joint.id, product=product, placement=joint.placement)


def _clamp_name(fitting: SizedFitting, angle: float | None, catalog: Catalog) -> str:
    """Name a fitting by its kind, the sizes it holds and its angle; programs take a slash for a folder."""
    turned = "" if angle is None else f" {angle:.2f} deg"
    return f"{fitting.kind.key} {tube_names(fitting, catalog)}{turned}".replace("/", "-")


def _boards(group: PanelGroup, shelf: _Shelf) -> list[Occurrence]:
    product = shelf.product(("panel", group.mark), group.mark, Paint.BOARD, lambda: panel_solid(group.first))
    return [Occurrence(name=p.id, product=product, placement=p.placement) for p in group.panels]
