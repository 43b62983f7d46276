"""Whether a plan can be carried out, whoever made it: each part, step after step, against all that stands then."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.assembly.balance import stands
from tubeframe.assembly.ports import admits, is_opened, release
from tubeframe.assembly.progress import moments
from tubeframe.assembly.room import FLOOR, WALL
from tubeframe.assembly.step import Hold, PartKind, Work

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.joining import Joining
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Fit, Number, PortFace
    from tubeframe.assembly.progress import Homes, Moment
    from tubeframe.assembly.reach import Reach
    from tubeframe.assembly.room import Room
    from tubeframe.assembly.step import Operation, Step
    from tubeframe.geometry.vector import Vec

_SHORT = 0.5
"""A way may be this much shorter than what gets a part out of its ports [mm]."""


class Wrong(StrEnum):
    """What can be wrong with a plan."""

    TWICE = "twice"
    MISSING = "missing"
    FLOATS = "floats"
    SHUT = "shut"
    LEFT_OUT = "left out"
    IN_THE_WAY = "in the way"
    NO_SWING = "no swing"
    TOO_SHORT = "too short"
    FALLS = "falls"
    LOOSE = "loose"
    TIGHT_TOO_EARLY = "tight too early"
    OUT_OF_REACH = "out of reach"
    BEFORE_SQUARE = "before square"
    BEFORE_TIGHT = "before tight"
    TOO_MANY = "too many"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """In which step something is wrong, with which part, and because of which others."""

    step: int
    part: str
    wrong: Wrong
    by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tools:
    """What a plan is checked with."""

    model: Model
    room: Room
    joining: Joining
    reach: Reach
    braces: frozenset[Number]
    captured: frozenset[Number]


def replayed(tools: Tools, homes: Homes, steps: Sequence[Step]) -> tuple[Fault, ...]:
    """Go through a plan, and return everything that is wrong with it, in turn."""
    return tuple(_faults(tools, homes, steps))


def _faults(tools: Tools, homes: Homes, steps: Sequence[Step]) -> Iterator[Fault]:
    model = tools.model
    seen: set[Number] = set()
    tight: set[str] = set()
    standing: Placed = frozenset()
    lying: dict[str, Placed] = {}
    squared = tightened = False
    for moment in moments(model, homes, steps):
        step = moment.step
        squared, tightened = squared or step.work is Work.SQUARE, tightened or step.work is Work.TIGHTEN
        for number in moment.new:
            if number in seen:
                yield _fault(tools, step, number, Wrong.TWICE)
            seen.add(number)
            if number in tools.braces and not squared:
                yield _fault(tools, step, number, Wrong.BEFORE_SQUARE)
            if number >= model.first_panel and not tightened and number not in tools.captured:
                yield _fault(tools, step, number, Wrong.BEFORE_TIGHT)
        if step.work is Work.FLAT:
            yield from _flat(tools, homes, moment, lying)
        else:
            yield from _stood(tools, moment, lying, standing)
        lying, standing = dict(moment.built), moment.placed
        yield from _tightened(tools, moment, tight)
        tight.update(step.tightens)
        yield from _counted(tools, homes, moment)
    yield from (_missing(tools, steps, seen))
    loose = [f for f in model.fits if f.joint.bolts and f.joint.id not in tight]
    yield from (Fault(step=len(steps), part=f.joint.id, wrong=Wrong.LOOSE) for f in loose)


def _missing(tools: Tools, steps: Sequence[Step], seen: set[Number]) -> Iterator[Fault]:
    for part in tools.model.parts:
        if part.number not in seen:
            yield Fault(step=len(steps), part=part.id, wrong=Wrong.MISSING)


def _counted(tools: Tools, homes: Homes, moment: Moment) -> Iterator[Fault]:
    """Check the limits of a step: of sub-frames that are alike, each counts for itself."""
    step, model = moment.step, tools.model
    sets: dict[str, list[Number]] = {}
    for tube in (n for n in moment.new if model.is_tube(n)):
        sets.setdefault(homes.home.get(tube, "") if step.work is Work.FLAT else "", []).append(tube)
    for tubes in sets.values():
        kinds = {model.piece(n).mark for n in tubes}
        if len(tubes) > weights.MOST_TUBES or len(kinds) > weights.MOST_KINDS:
            yield Fault(step=step.number, part="", wrong=Wrong.TOO_MANY, by=tuple(sorted(kinds)))


def _flat(tools: Tools, homes: Homes, moment: Moment, lying: dict[str, Placed]) -> Iterator[Fault]:
    there = dict(lying)
    for operation, number in zip(moment.step.operations, moment.new, strict=True):
        name = homes.of(tools.model, operation)
        pairs = zip(moment.step.operations, moment.new, strict=True)
        later = frozenset(n for o, n in pairs if homes.of(tools.model, o) == name)
        placed = there.get(name, frozenset())
        yield from _came(tools, moment.step, operation, number, placed, later, is_flat=True)
        there[name] = placed | {number}


def _stood(tools: Tools, moment: Moment, lying: dict[str, Placed], standing: Placed) -> Iterator[Fault]:
    step, placed = moment.step, standing
    later = frozenset(moment.new)
    raises = list(step.raises)
    for n, (operation, number) in enumerate(zip(step.operations, moment.new, strict=True)):
        while raises and raises[0].after <= n:
            group = lying.get(raises[0].sub_frame, frozenset())
            yield from _raised(tools, step, group, raises[0].direction, raises[0].distance, placed)
            placed |= group
            raises.pop(0)
        yield from _came(tools, step, operation, number, placed, later, is_flat=False)
        placed |= {number}
    for raising in raises:
        group = lying.get(raising.sub_frame, frozenset())
        yield from _raised(tools, step, group, raising.direction, raising.distance, placed)
        placed |= group
    helped = any(o.held_by is Hold.PERSON for o in step.operations)
    helped = helped or any(r.held_by is Hold.PERSON for r in step.raises)
    if placed and not stands(tools.model, placed) and not helped and step.work is Work.STAND:
        yield Fault(step=step.number, part="", wrong=Wrong.FALLS)


def _raised(tools: Tools, step: Step, group: Placed, way: Vec, distance: float, placed: Placed) -> Iterator[Fault]:
    """Check a sub-frame that comes in one piece."""
    model = tools.model
    faces: list[tuple[Fit, PortFace, Vec]] = []
    for fit in model.fits:
        if fit.number in placed:
            faces += [(fit, f, way) for f in fit.faces if f.tube in group]
        elif fit.number in group:
            faces += [(fit, f, -way) for f in fit.faces if f.tube in placed]
    yield from _taken(tools, step, faces, placed, distance)
    for number in sorted(group):
        struck = tools.room.blockers(number, way, distance) & (placed | {FLOOR, WALL})
        if struck:
            yield _fault(tools, step, number, Wrong.IN_THE_WAY, struck)


def _came(
    tools: Tools, step: Step, operation: Operation, number: Number, placed: Placed, later: Placed, *, is_flat: bool
) -> Iterator[Fault]:
    """Check one part: it touches what is there, its ports take it from its way, and the way is free."""
    model, way = tools.model, operation.direction
    faces: list[tuple[Fit, PortFace, Vec]] = []
    if operation.kind is PartKind.JOINT:
        fit = model.fit(number)
        faces = [(fit, f, -way) for f in fit.faces if f.tube in placed]
        in_hand = not faces and fit.is_lone and fit.faces[0].tube in later
        on = fit.faces if in_hand else [f for _, f, _ in faces]
        if not tools.joining.fitter.threads(fit, on, way, placed):
            yield _fault(tools, step, number, Wrong.SHUT, frozenset(f.tube for f in on))
        if not faces:
            if not in_hand:
                yield _fault(tools, step, number, Wrong.FLOATS)
            return
    elif operation.kind is PartKind.MEMBER:
        faces = [
            (f, x, way) for f in model.fits_of[number] if f.number in placed and not f.is_lone for x in f.of(number)
        ]
        touches = faces or any(o in placed for _, o in model.neighbours(number))
        if not touches and any(model.is_tube(n) for n in placed):
            yield _fault(tools, step, number, Wrong.FLOATS)
    told = {(e.joint, e.port) for e in operation.into}
    for fit, face, _ in faces:
        if (fit.joint.id, face.name) not in told:
            yield _fault(tools, step, number, Wrong.LEFT_OUT, frozenset({fit.number}))
    yield from _taken(tools, step, faces, placed, operation.distance)
    struck = tools.room.blockers(number, way, operation.distance) & (placed if is_flat else placed | {FLOOR, WALL})
    if struck:
        yield _fault(tools, step, number, Wrong.IN_THE_WAY, struck)


def _taken(
    tools: Tools, step: Step, faces: Sequence[tuple[Fit, PortFace, Vec]], placed: Placed, distance: float
) -> Iterator[Fault]:
    """Check that ports take their tubes from the way they come, opened where there is room for that."""
    for fit, face, way in faces:
        tube = frozenset({face.tube})
        if not admits(face, way):
            yield _fault(tools, step, fit.number, Wrong.SHUT, tube)
        elif is_opened(face, way) and tools.room.jaws(fit, face) & placed:
            yield _fault(tools, step, fit.number, Wrong.NO_SWING, tools.room.jaws(fit, face) & placed)
        elif release(face, way) > distance + _SHORT:
            yield _fault(tools, step, fit.number, Wrong.TOO_SHORT, tube)


def _tightened(tools: Tools, moment: Moment, tight: set[str]) -> Iterator[Fault]:
    """Check that what is tightened for good is whole then, and that the key reaches it."""
    model, there = tools.model, moment.placed.union(*moment.built.values())
    names = {f.joint.id: f for f in model.fits}
    for joint in moment.step.tightens:
        fit = names[joint]
        lacks = frozenset(f.tube for f in fit.faces if f.tube not in there) | ({fit.number} - there)
        if lacks:
            yield _fault(tools, moment.step, fit.number, Wrong.TIGHT_TOO_EARLY, lacks)
        elif joint in tight:
            yield _fault(tools, moment.step, fit.number, Wrong.TWICE)
        elif tools.reach.could_be(fit) and not tools.reach.is_reached(fit.number, there):
            yield _fault(tools, moment.step, fit.number, Wrong.OUT_OF_REACH, tools.reach.in_the_way(fit.number, there))


def _fault(tools: Tools, step: Step, number: Number, wrong: Wrong, by: Placed = frozenset()) -> Fault:
    parts = tools.model.parts
    names = tuple(parts[n].id if n >= 0 else {FLOOR: "floor", WALL: "wall"}[n] for n in sorted(by))
    return Fault(step=step.number, part=parts[number].id, wrong=wrong, by=names)
