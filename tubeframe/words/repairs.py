"""Repairs in words: what is done to which piece, by how much, and where it sits then along the tubes that hold it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import TINY
from tubeframe.joints.repair.operations import (
    AddTube,
    Ask,
    CutOut,
    DropTube,
    EndPiece,
    Move,
    MoveEnds,
    Resplit,
    Single,
    Stretch,
    Trim,
    Turn,
    singles,
)
from tubeframe.words.findings import told
from tubeframe.words.listing import plural
from tubeframe.words.stations import at_station, edge_word, end_word, is_on_a_tape, listed, shown, stations

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.units import Units
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.search import Mended, Repair

_SLANT = 0.05
"""A shift is told along an axis when this share of it goes that way."""
_PLACES_AT_MOST = 2
_STOPPED = "the search for repairs stopped after a fixed amount of work"


def offer_lines(offered: Sequence[Repair], units: Units, *, stopped: bool = False) -> list[str]:
    """Say what could be done, a line each, and whether the search stopped before it was through."""
    lines = [
        f"repair for {repair_place(r, units)}: {repair_words(r, units)} (checked; --repair does the first)"
        for r in offered
    ]
    return [*lines, f"{_STOPPED}: there may be more repairs; mend these faults and build again"] if stopped else lines


def mended_lines(found: Mended, units: Units) -> list[str]:
    """Say every change that was made, a line each, and what is left."""
    lines = [f"repaired {repair_place(r, units)}: {repair_words(r, units)}" for r in found.done]
    if found.done:
        lines.append("all files show the repaired frame; --only frame writes it as a text frame")
    if found.left:
        what = "1 fault is" if found.left == 1 else f"{found.left} faults are"
        why = _STOPPED if found.stopped else "no change that was tried mends more without bringing another fault"
        lines.append(f"{what} left: {why}")
    return lines or ["nothing to repair: no fault was found"]


def repair_place(repair: Repair, units: Units) -> str:
    """Say where the fault is that a repair mends."""
    places = list(dict.fromkeys(told(f, units).where for f in repair.fault.findings))
    more = len(places) - _PLACES_AT_MOST
    return "; ".join(places[:_PLACES_AT_MOST]) + (f" and {more} more" if more > 0 else "")


def repair_words(repair: Repair, units: Units) -> str:
    """Say what is done, one operation after the other, and which fittings it takes."""
    told_of = [_done(o, repair, units) for o in singles(repair.operation)]
    asked = {o.kind for o in singles(repair.operation) if isinstance(o, Ask)}
    brings = [_counted(n, kind) for kind, n in repair.brings if kind not in asked]
    return "; ".join([*told_of, *([f"use {' and '.join(brings)}"] if brings else [])])


def _done(operation: Single, repair: Repair, units: Units) -> str:
    return _HOW[type(operation)](operation, repair, units)


def _ends_moved(operation: MoveEnds, repair: Repair, units: Units) -> str:
    names = [name for name, _ in operation.ends]
    which = _grouped([(n, end_word(_member(repair.before, n), e)) for n, e in operation.ends])
    what = f"move {which} {shift_words(operation.shift, units)}"
    return what + stations([_member(repair.after, n) for n in names], names, repair.after, units)


def _ended(operation: EndPiece, repair: Repair, units: Units) -> str:
    del units
    which = _grouped([(n, end_word(_member(repair.before, n), e)) for n, e in operation.ends])
    if operation.kind is EndKind.JOINT:
        return f"let {which} end in a fitting"
    return f"put a {operation.kind.value} on {which}"


def _dropped(operation: DropTube, repair: Repair, units: Units) -> str:
    del repair, units
    return f"leave out {operation.member}: it lies where {operation.twin} is"


def _added(operation: AddTube, repair: Repair, units: Units) -> str:
    length = shown(operation.member.path.length, units)
    what = f"add a tube from {' to '.join(operation.between)}, {length} from middle to middle"
    return what + stations([operation.member], [operation.member.id], repair.after, units)


def _asked(operation: Ask, repair: Repair, units: Units) -> str:
    del repair, units
    return f"clamp them there with {_counted(len(operation.at), operation.kind)}"


def _cut_out(operation: CutOut, repair: Repair, units: Units) -> str:
    board = next(p for p in repair.before.panels if p.id == operation.board)
    holes: dict[str, list[str]] = {}
    for pocket in operation.pockets:
        size = pocket.high - pocket.low
        deep = "through" if pocket.high.z >= board.thickness - TINY else f"{shown(size.z, units)} deep from below"
        what = f"{shown(size.x, units)} x {shown(size.y, units)}, {deep}"
        at = (pocket.low + pocket.high) * 0.5
        edges = [edge_word(-board.placement.x), edge_word(-board.placement.y)]
        where = " and ".join(f"{shown(v, units)} from the {e}" for v, e in zip((at.x, at.y), edges, strict=True))
        holes.setdefault(what, []).append(where)
    told_of = [f"{what}, middle {'; '.join(where)}" for what, where in holes.items()]
    return f"cut out {board.id}: {'; '.join(told_of)}"


def _trimmed(operation: Trim, repair: Repair, units: Units) -> str:
    del repair
    return f"cut {operation.board} back by {shown(operation.by, units)} at the {edge_word(operation.edge)}"


def _moved(move: Move, repair: Repair, units: Units) -> str:
    names = [*move.members, *move.boards]
    if len(move.members) == len(repair.before.members) > 1:
        return f"move the whole frame {shift_words(move.shift, units)}"
    if not move.members:
        return f"move {listed(names)} {shift_words(move.shift, units)}"
    members = [_member(repair.after, n) for n in move.members]
    return f"move {listed(names)} {shift_words(move.shift, units)}" + stations(
        members, move.members, repair.after, units
    )


def _turned(turn: Turn, repair: Repair, units: Units) -> str:
    """Say by how much a tube turns, and where that brings the end that is farther from the joint."""
    before, after = _member(repair.before, turn.member), _member(repair.after, turn.member)
    end = max(TubeEnd, key=lambda e: turn.about.distance(_point(before, e)))
    shift = _point(after, end) - _point(before, end)
    angle = abs(math.degrees(turn.angle))
    return f"turn {turn.member} by {angle:.1f} degrees: {end_word(before, end)} goes {shift_words(shift, units)}"


def _stretched(stretch: Stretch, repair: Repair, units: Units) -> str:
    by = f"{shown(abs(stretch.by), units)} {'longer' if stretch.by > 0.0 else 'shorter'}"
    ends: dict[str, list[str]] = {}
    for name, end in stretch.ends:
        ends.setdefault(name, []).append(end_word(_member(repair.before, name), end))
    at = ["both ends" if len(words) > 1 else words[0] for words in ends.values()]
    if len(set(at)) == 1:
        return f"make {listed(list(ends))} {by} at {at[0]}"
    return f"make {by}: {_grouped(list(zip(ends, at, strict=True)))}"


def _resplit(operation: Resplit, repair: Repair, units: Units) -> str:
    member = _member(repair.before, operation.members[0])
    names, old, new = listed(operation.members), sorted(member.split_at), sorted(operation.places)
    if len(old) != len(new):
        where = " and ".join(at_station(member, p, units) for p in new)
        return f"split {names} only {f'at {where}' if new else 'where it has to be'}"
    place, to = next((a, b) for a, b in zip(old, new, strict=True) if a != b)
    toward = end_word(member, TubeEnd.B if to > place else TubeEnd.A)
    by, where = shown(abs(to - place), units), at_station(member, to, units)
    return f"move the sleeve of {names} {by} toward {toward}: to {where}"


def shift_words(shift: Vec, units: Units) -> str:
    """Say how far and which way a shift goes, as one stands before the frame; along each axis when it is aslant."""
    ways = ((shift.x, "right", "left"), (shift.y, "back", "forward"), (shift.z, "up", "down"))
    told_of = [(by, plus if by > 0.0 else minus) for by, plus, minus in ways if abs(by) > _SLANT * shift.length]
    on_tape = [(by, way) for by, way in told_of if is_on_a_tape(by, units)]
    return " and ".join(f"{shown(abs(by), units)} {way}" for by, way in on_tape or told_of)


def _point(member: Member, end: TubeEnd) -> Vec:
    return member.path.start if end is TubeEnd.A else member.path.end


def _grouped(ends: Sequence[tuple[str, str]]) -> str:
    """List ends with their tubes, tubes with the same end together."""
    by_end: dict[str, list[str]] = {}
    for name, end in ends:
        by_end.setdefault(end, []).append(name)
    return " and ".join(f"{end} of {listed(names)}" for end, names in by_end.items())


def _counted(number: int, kind: str) -> str:
    return f"{number} {plural(kind, number)}"


def _member(frame: Frame, name: str) -> Member:
    return next(m for m in frame.members if m.id == name)


_HOW: Mapping[type[Single], Callable[..., str]] = {
    Move: _moved,
    MoveEnds: _ends_moved,
    Stretch: _stretched,
    Turn: _turned,
    EndPiece: _ended,
    Resplit: _resplit,
    DropTube: _dropped,
    CutOut: _cut_out,
    Trim: _trimmed,
    AddTube: _added,
    Ask: _asked,
}
