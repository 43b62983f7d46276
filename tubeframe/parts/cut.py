"""From tubes that run from node to node to pieces that are cut."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.rules import LEAST_CUT, bend_allowances
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.units import cut_rounded
from tubeframe.geometry.vector import any_square_to
from tubeframe.parts.piece import Piece, PieceEnd, Station
from tubeframe.parts.turns import bends_of, turn_at

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.member import EndKind
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Jointed, PortUse, Tube

Held = tuple["Joint", "PortUse"]


def cut_pieces(jointed: Jointed, workshop: Workshop) -> tuple[Piece, ...]:
    """Cut every tube: take setbacks off, put A at the lower end, measure stations, bends and turns from A."""
    held: dict[str, list[Held]] = {t.id: [] for t in jointed.tubes}
    for joint in jointed.joints:
        for use in joint.uses:
            held[use.tube].append((joint, use))
    return tuple(_piece(t, held[t.id], workshop) for t in jointed.tubes)


def _piece(tube: Tube, held: list[Held], workshop: Workshop) -> Piece:
    tube, held = _lower_end_first(tube, held)
    at_end = {use.end: (joint, use) for joint, use in held if use.end}
    back = {end: _setback(at_end.get(end), kind) for end, kind in zip(TubeEnd, (tube.end_a, tube.end_b), strict=True)}
    path = _between(tube.path, back[TubeEnd.A], tube.path.length - back[TubeEnd.B])
    runs = sorted(
        ((replace(use, at=use.at - back[TubeEnd.A]), joint) for joint, use in held if use.role is PortRole.RUN),
        key=lambda pair: pair[0].at,
    )
    reference = _reference(path, [use for use, _ in runs], at_end.get(TubeEnd.A))
    spare_a, spare_b = bend_allowances(path, workshop.bend_radius(tube.size))
    return Piece(
        id=tube.id,
        member=tube.member,
        size=tube.size,
        path=path,
        end_a=_end(tube.end_a, back[TubeEnd.A], at_end.get(TubeEnd.A), path, 0.0, reference),
        end_b=_end(tube.end_b, back[TubeEnd.B], at_end.get(TubeEnd.B), path, path.length, reference),
        stations=tuple(
            Station(
                from_a=use.at,
                roll=turn_at(path, reference, use.at, use.up),
                sense=1 if use.axis.dot(path.tangent(use.at)) > 0.0 else -1,
                joint=joint.id,
                port=use.port,
                swing_angle=use.swing_angle,
            )
            for use, joint in runs
        ),
        bends=bends_of(path),
        cut_rounded=cut_rounded(path.length, workshop.units),
        allowance_a=spare_a,
        allowance_b=spare_b,
    )


def _lower_end_first(tube: Tube, held: list[Held]) -> tuple[Tube, list[Held]]:
    """Swap the ends when B lies lower than A."""
    if tube.path.end.z >= tube.path.start.z - LOWER_MM:
        return tube, held
    length = tube.path.length
    turned = replace(tube, path=tube.path.reversed(), end_a=tube.end_b, end_b=tube.end_a)
    return turned, [
        (joint, replace(use, at=length - use.at, end=use.end.other if use.end else None)) for joint, use in held
    ]


def _setback(at_end: Held | None, kind: EndKind) -> float:
    """Return what is taken off an end [mm]: a fitting's setback, or the thickness of what it stands on."""
    if at_end is None:
        return 0.0
    joint, use = at_end
    return joint.taken_off(use, kind)


def _between(path: Path, low: float, high: float) -> Path:
    """Return what is left between the cut ends [mm]; a sliver where nothing is, which the joints tell of."""
    if high - low >= LEAST_CUT:
        return path.part(low, high)
    middle = min(max((low + high) / 2.0, LEAST_CUT), path.length - LEAST_CUT)
    return path.part(middle - LEAST_CUT / 2.0, middle + LEAST_CUT / 2.0)


def _reference(path: Path, runs: list[PortUse], at_a: Held | None) -> Vec:
    """Return the direction at A that turns are counted from: inside of the first bend, else the first fitting."""
    if path.bends:
        return path.bends[0][1].inward
    ups = [use.up for use in runs] + ([at_a[1].up] if at_a else [])
    return ups[0] if ups else any_square_to(path.tangent(0.0))


def _end(kind: EndKind, setback: float, at_end: Held | None, path: Path, at: float, reference: Vec) -> PieceEnd:
    if at_end is None:
        return PieceEnd(kind=kind, setback=setback)
    joint, use = at_end
    return PieceEnd(
        kind=kind,
        setback=setback,
        joint=joint.id,
        port=use.port,
        roll=turn_at(path, reference, at, use.up),
        swing_angle=use.swing_angle,
    )
