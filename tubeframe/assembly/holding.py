"""What keeps each new part where it is until the next step, how many hands that takes, and the tools."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.assembly.balance import stands
from tubeframe.assembly.progress import moments
from tubeframe.assembly.step import Hold, PartKind, Tool, Work
from tubeframe.frame.job import JobKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number
    from tubeframe.assembly.progress import Homes
    from tubeframe.assembly.step import Operation, Step
    from tubeframe.joints.joint import JointId

_LONG = 1800.0
"""A tube longer than this wants a second pair of hands [mm]; common practice, no source."""
_KEY = (Tool.KEY,)
_TWO = frozenset({Work.SET_OUT, Work.STAND, Work.SQUARE, Work.BRACE, Work.STRIPS, Work.TOP, Work.COVER})

_TOOLS: dict[Work, tuple[Tool, ...]] = {
    Work.SET_OUT: (Tool.STRING, Tool.TAPE, Tool.HAMMER),
    Work.SQUARE: (Tool.TAPE, Tool.KEY),
    Work.STRIPS: (),
    Work.TOP: (Tool.DRILL, Tool.DRIVER),
    Work.ANCHOR: (Tool.DRILL,),
    Work.CAPS: (Tool.SOFT_HAMMER,),
    Work.COVER: (Tool.TAPE,),
}
_SCREWED = frozenset({JobKind.THRESHOLDS, JobKind.BASEBOARDS, JobKind.POCKETS, JobKind.WALL_TIES})


def held(model: Model, homes: Homes, steps: Sequence[Step]) -> Iterator[Step]:
    """Say of every step what holds its new parts, whether the frame stands by itself then, hands and tools."""
    for moment in moments(model, homes, steps):
        step = replace(moment.step, tools=_tools(moment.step))
        if step.work is Work.FLAT:
            lying = tuple(replace(o, held_by=Hold.FLOOR) for o in step.operations)
            yield replace(step, operations=lying, hands=_hands(model, moment.new))
            continue
        stable = stands(model, moment.placed) if moment.placed else True
        keeper = Hold.ITSELF if stable else Hold.PERSON
        pairs = zip(step.operations, moment.new, strict=True)
        operations = tuple(replace(o, held_by=_holder(model, o, n, moment.placed, stable=stable)) for o, n in pairs)
        yield replace(
            step,
            operations=operations if stable or step.raises else _with_a_person(operations),
            raises=tuple(replace(r, held_by=keeper) for r in step.raises),
            stands=stable,
            hands=2 if step.raises or not stable or step.work in _TWO else _hands(model, moment.new),
        )


def _tools(step: Step) -> tuple[Tool, ...]:
    """Return what is taken in hand: a screwdriver where something is screwed to wood or a wall."""
    tools = _TOOLS.get(step.work, _KEY)
    is_screwed = step.work is Work.ANCHOR and any(job.kind in _SCREWED for job in step.jobs)
    return (*tools, Tool.DRIVER) if is_screwed else tools


def _with_a_person(operations: tuple[Operation, ...]) -> tuple[Operation, ...]:
    """Let somebody hold the last tube of what does not stand by itself."""
    last = max((n for n, o in enumerate(operations) if o.kind is PartKind.MEMBER), default=None)
    return tuple(replace(o, held_by=Hold.PERSON) if n == last else o for n, o in enumerate(operations))


def _hands(model: Model, new: Sequence[Number]) -> int:
    long = any(model.is_tube(n) and model.piece(n).cut_length > _LONG for n in new)
    return 2 if long else 1


def _holder(model: Model, operation: Operation, number: Number, placed: Placed, *, stable: bool) -> Hold | JointId:
    """Say what keeps a part: two clamps, one and the floor, one alone for what ends there, else a person."""
    if operation.kind is not PartKind.MEMBER:
        return Hold.ITSELF
    fits = {f.number: f for f, _ in model.neighbours(number)}
    there = [f for n, f in sorted(fits.items()) if n in placed]
    if len(there) > 1:
        return Hold.ITSELF if stable else Hold.PERSON
    if there and (len(fits) == 1 or model.feet(number)):
        return there[0].joint.id
    if not there and model.is_anchored(number):
        return Hold.ITSELF
    return Hold.FLOOR if len(model.feet(number)) > 1 else Hold.PERSON
