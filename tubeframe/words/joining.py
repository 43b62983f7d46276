"""How new parts come to what stands, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.step import Hold, PartKind, Work
from tubeframe.frame.member import EndKind
from tubeframe.joints.keys import middle_of
from tubeframe.words.listing import kind_word, plural
from tubeframe.words.lying import stand_up_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from tubeframe.assembly.step import Operation, Raising, Step
    from tubeframe.design import Design
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import BoltWay, JointId
    from tubeframe.words.listing import Lists

_UPRIGHT = 0.7
_LEVEL = 0.35


def adding_words(step: Step, design: Design, lists: Lists) -> Iterator[str]:
    """Give a sentence for each thing that is raised and each set of tubes that come from one side, in turn."""
    waiting = list(step.raises)
    run: list[Operation] = []
    for number, operation in enumerate(step.operations):
        if waiting and waiting[0].after <= number:
            yield from _brought(run, step, design, lists)
            run = []
            due = [r for r in waiting if r.after <= number]
            waiting = waiting[len(due) :]
            yield from _raised(due, design, lists)
        run.append(operation)
    yield from _brought(run, step, design, lists)
    yield from _raised(waiting, design, lists)


def _raised(raises: Sequence[Raising], design: Design, lists: Lists) -> Iterator[str]:
    if not raises:
        return
    staked = _on_stakes(raises, design)
    if staked:
        turn = ", one after the other" if len(staked) > 1 else ""
        yield f"Slip {lists.frames(staked)} over {'their' if len(staked) > 1 else 'its'} stakes{turn}."
    others = [r for r in raises if r.sub_frame not in staked]
    into = [r for r in others if r.into]
    free = tuple(r.sub_frame for r in others if not r.into)
    if free:
        where = "in their places, side by side" if len(free) > 1 else "in its place"
        yield f"{stand_up_words(design, lists, free)} {where}."
    for raising in into:
        kinds = _kinds_of((e.joint for e in raising.into), design)
        name = lists.frames((raising.sub_frame,))
        yield f"Bring {name} {from_word(raising.direction)} until every end sits home in the {kinds}."


def _on_stakes(raises: Sequence[Raising], design: Design) -> tuple[str, ...]:
    """Return the frames of which a tube goes over a stake."""
    members = {p.member for p in design.parts.pieces if EndKind.STAKE in (p.end_a.kind, p.end_b.kind)}
    own = {f.id: set(f.members) for f in design.assembly.flats}
    return tuple(r.sub_frame for r in raises if own[r.sub_frame] & members)


def _brought(run: Sequence[Operation], step: Step, design: Design, lists: Lists) -> Iterator[str]:
    """Say what comes from which side, tubes alike together, with the fittings that are put on for them."""
    new = {o.part for o in step.operations if o.kind is PartKind.JOINT}
    fittings = [o for o in run if o.kind is PartKind.JOINT]
    if fittings:
        joints = tuple(j for j in step.joints if j in {o.part for o in fittings})
        tips = {j.id for j in design.jointed.joints if j.is_end_piece}
        on_ends, on_marks = [j for j in joints if j in tips], [j for j in joints if j not in tips]
        if on_ends:
            yield f"Put {lists.fittings(on_ends, 1)} on the tubes' ends."
        if on_marks:
            yield f"Put {lists.fittings(on_marks, 1)} on, at the stations marked."
    sides: dict[tuple[str, bool], list[Operation]] = {}
    for operation in (o for o in run if o.kind is PartKind.MEMBER):
        opened = operation.opens and any(e.joint not in new for e in operation.into)
        sides.setdefault((from_word(operation.direction), opened), []).append(operation)
    for (side, opened), group in sides.items():
        tubes = tuple(t for t in step.tubes if t in {o.part for o in group})
        clamps = "Open the clamps that take it. " if opened and len(tubes) == 1 else ""
        clamps = "Open the clamps that take them. " if opened and len(tubes) > 1 else clamps
        yield f"{clamps}Put in {lists.pieces(tubes)} {side}."
    boards = [o for o in run if o.kind is PartKind.PANEL]
    if boards:
        yield f"Lay in {lists.boards(step)} now: later it does not go in any more."


def waiting_words(step: Step, design: Design) -> str:
    """Name the fittings that stand already and take the new ends."""
    new = {o.part for o in step.operations if o.kind is PartKind.JOINT}
    standing = [e.joint for o in step.operations if o.kind is PartKind.MEMBER for e in o.into if e.joint not in new]
    kinds = _kinds_of(standing, design)
    return f"Their ends go into the {kinds} that stand." if kinds else ""


def keeping_words(step: Step, design: Design, lists: Lists) -> tuple[str, ...]:
    """Say who holds what does not stand by itself, and which clamps are tightened at once."""
    said: list[str] = []
    if step.work in {Work.STAND, Work.BRACE} and not step.stands:
        said.append("It does not stand by itself yet: a second person holds it until it does.")
    elif any(o.held_by is Hold.PERSON for o in step.operations):
        said.append("Hold up what hangs on one clamp until its other end is held.")
    if step.tightens and step.work is not Work.TIGHTEN:
        kinds = lists.fittings(step.tightens, 1)
        said.append(f"Tighten {kinds} for good now: later the key does not reach all of their bolts.")
    del design
    return tuple(said)


def head_words(step: Step, design: Design) -> tuple[str, ...]:
    """Say which way bolt heads face where the key goes in from one side only, and why; nothing where either will do."""
    new = set(step.joints)
    kinds = {j.id: kind_word(j.kind) for j in design.jointed.joints if j.id in new}
    middle = middle_of(design.jointed.tubes)
    ways = {(b.joint, b.port): _facing(b, middle) for b in design.jointed.bolts if b.joint in new}
    found: dict[tuple[str, str], dict[str, None]] = {}
    for head in design.assembly.heads:
        if head.joint in new:
            key = (kinds[head.joint], _REASONS[head.behind])
            found.setdefault(key, {})[ways[head.joint, head.port]] = None
    stood = " as it will stand" if step.work is Work.FLAT else ""
    return tuple(
        f"Bolt heads of the {plural(kind, 2)} "
        f"{next(iter(sides)) + stood if len(sides) == 1 else 'to where there is room'}: {reason} stops the key."
        for (kind, reason), sides in found.items()
    )


_REASONS = {PartKind.MEMBER: "a tube", PartKind.JOINT: "another fitting", PartKind.PANEL: "a board"}


def from_word(way: Vec) -> str:
    """Say from where something comes, as one stands before the frame."""
    words = []
    if abs(way.z) > _LEVEL:
        words.append("from above" if way.z > 0.0 else "from below")
    if abs(way.x) > _LEVEL:
        words.append("from the right" if way.x > 0.0 else "from the left")
    if abs(way.y) > _LEVEL:
        words.append("from the back" if way.y > 0.0 else "from the front")
    return " and ".join(words)


def _kinds_of(joints: Iterable[JointId], design: Design) -> str:
    wanted = set(joints)
    kinds = dict.fromkeys(kind_word(j.kind) for j in design.jointed.joints if j.id in wanted)
    return " and the ".join(plural(k, 2) for k in kinds)


def _facing(bolt: BoltWay, middle: Vec) -> str:
    """Say which way a head faces: up, down, or away from the frame's middle or toward it."""
    if abs(bolt.head.z) > _UPRIGHT:
        return "up" if bolt.head.z > 0.0 else "down"
    return "outward" if (bolt.at - middle).dot(bolt.head) >= 0.0 else "inward"
