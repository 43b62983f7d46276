"""The whole frame in solids: every shape made once, placed as often as it is used."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Any

from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.vector import any_square_to
from tubeframe.solids.fitting import fitting_solid
from tubeframe.solids.panel import panel_solid
from tubeframe.solids.tube import tube_solid

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.geometry.path import Path
    from tubeframe.joints.joint import Joint
    from tubeframe.parts.piece import Piece


class Paint(Enum):
    """Plain colours, red green blue from 0 to 1."""

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
    made: dict[tuple[object, ...], Product] = {}
    found = [
        *(_tube(p, design, made) for p in design.parts.pieces),
        *(_fitting(j, design, made) for j in design.jointed.joints if j.fitting),
        *_boards(design, made),
    ]
    return Model(name=design.frame.name, products=tuple(made.values()), occurrences=tuple(found))


def _tube(piece: Piece, design: Design, made: dict[tuple[object, ...], Product]) -> Occurrence:
    """Place a tube by its end A, or by the end that is A on the first of its mark."""
    path = piece.path.reversed() if piece.is_reversed else piece.path
    key = (piece.mark,)
    if key not in made:
        size = design.workshop.catalog.tube(piece.size)
        shape = tube_solid(_in_own_frame(path), size.outside, size.bore)
        made[key] = Product(name=piece.mark, shape=shape, paint=Paint.TUBE)
    return Occurrence(name=piece.id, product=made[key], placement=_at_start(path))


def _at_start(path: Path) -> Placement:
    """Return the frame at a tube's start: z along it, x to the inside of the first bend."""
    way = path.tangent(0.0)
    toward = path.bends[0][1].inward if path.bends else any_square_to(way)
    turned = from_axes(origin=path.start, x=way, toward=toward)
    return Placement(origin=path.start, x=turned.y, y=turned.z, z=turned.x)


def _in_own_frame(path: Path) -> Path:
    return path.seen_from(_at_start(path))


def _fitting(joint: Joint, design: Design, made: dict[tuple[object, ...], Product]) -> Occurrence:
    fitting = joint.fitting
    if fitting is None:
        message = "a joint without a fitting has no solid"
        raise ValueError(message)
    angle = next((f" {p.swing_angle:.2f} deg" for p in fitting.ports if p.swing_angle is not None), "")
    key = (fitting.kind.key, angle, *((p.outside, p.setback) for p in fitting.ports))
    if key not in made:
        names = {t.outside: t.name for t in design.workshop.catalog.tubes}
        sizes = " x ".join(dict.fromkeys(names[p.outside] for p in fitting.ports))
        name = f"{fitting.kind.key} {sizes}{angle}"
        made[key] = Product(name=name, shape=fitting_solid(fitting), paint=Paint.FITTING)
    return Occurrence(name=joint.id, product=made[key], placement=joint.placement)


def _boards(design: Design, made: dict[tuple[object, ...], Product]) -> list[Occurrence]:
    found = []
    for group in design.parts.panel_groups:
        product = Product(name=group.mark, shape=panel_solid(group.first), paint=Paint.BOARD)
        made[(group.mark,)] = product
        found += [Occurrence(name=p.id, product=product, placement=p.placement) for p in group.panels]
    return found
