"""The steps of the assembly in words: one imperative sentence an action."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.step import Tool, Work
from tubeframe.fabrication.stakes import stake_ends
from tubeframe.frame.caution import Moment
from tubeframe.joints.loops import rings
from tubeframe.words.boards import board_title, laying_words
from tubeframe.words.cautions import all_cautions
from tubeframe.words.closing import closing_words
from tubeframe.words.jobs import cover_words, door_words, job_words
from tubeframe.words.joining import adding_words, head_words, keeping_words, waiting_words
from tubeframe.words.listing import Lists
from tubeframe.words.lying import mouths_words
from tubeframe.words.together import Together
from tubeframe.words.whole import anchor_words, last_words, set_out_words, square_words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from tubeframe.assembly.step import Move, Step
    from tubeframe.design import Design
    from tubeframe.frame.caution import Caution
    from tubeframe.joints.joint import JointId, TubeId
from tubeframe.words.whole import Said

HOME = "Ends home, clamps on marks"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldStep:
    """A step as it is read: what is added, what is done and checked; cautions are read first."""

    number: int
    title: str
    tubes: tuple[TubeId, ...]
    joints: tuple[JointId, ...]
    panels: tuple[str, ...]
    moves: tuple[Move, ...]
    sub_frame: str
    hands: int
    tool: str
    action: tuple[str, ...]
    check: str
    cautions: tuple[Caution, ...]
    data: Step


@dataclass(frozen=True, slots=True, kw_only=True)
class _Words:
    title: str
    action: tuple[str, ...]
    check: str


def every_step(steps: Sequence[ToldStep], *, in_parts: bool = False) -> str:
    """Say what goes for every step, once, before them; and where pictures show only a part of the frame."""
    number = next((s.number for s in steps if s.data.work is Work.TIGHTEN), len(steps))
    words = f"In every step: ends pushed home, clamps on their marks, bolts finger-tight until step {number}."
    return f"{words} Pictures show what stands near the new parts, not all of the frame." if in_parts else words


def told_steps(design: Design) -> tuple[ToldStep, ...]:
    """Put all steps into words, in the user's units."""
    steps = design.assembly.steps
    warned = _cautions_by_step(steps, all_cautions(design.frame))
    closed = list(rings(design.jointed.tubes, design.jointed.joints))
    ended = {(j.id, u.tube) for j in design.jointed.joints for u in j.uses if u.end is not None}
    lists, is_staked = Lists(design), bool(stake_ends(design.parts))
    there = Together(design)
    told: list[ToldStep] = []
    for step, cautions in zip(steps, warned, strict=True):
        new, here = there.after(step)
        now = [r for r in closed if all(t in here for t in r.tubes)]
        closed = [r for r in closed if r not in now]
        words = _words(step, design, lists)
        told.append(
            ToldStep(
                number=step.number,
                title=words.title,
                tubes=step.tubes,
                joints=step.joints,
                panels=step.panels,
                moves=step.moves,
                sub_frame=step.sub_frames[0] if len(step.sub_frames) == 1 else "",
                hands=step.hands,
                tool=tool_words(step, lists, is_staked=is_staked),
                action=(
                    *words.action,
                    *closing_words(new, now, design.parts, ended),
                    *head_words(step, design),
                    *keeping_words(step, design, lists),
                ),
                check=words.check,
                cautions=cautions,
                data=step,
            )
        )
    return tuple(told)


def tool_words(step: Step, lists: Lists, *, is_staked: bool) -> str:
    """List the tools of a step, and the pins where feet are slipped over stakes."""
    names = {
        Tool.KEY: lists.key,
        Tool.TAPE: "tape",
        Tool.STRING: "string",
        Tool.HAMMER: "hammer",
        Tool.SOFT_HAMMER: "soft hammer",
        Tool.DRILL: "drill",
        Tool.DRIVER: "screwdriver",
    }
    pins = ("cross pins",) if step.work is Work.ANCHOR and is_staked else ()
    return ", ".join((*(names[t] for t in step.tools), *pins))


def _cautions_by_step(steps: Sequence[Step], cautions: Sequence[Caution]) -> list[tuple[Caution, ...]]:
    """Put each caution before the first step of its work; what has no such step goes before the last one."""
    found: list[list[Caution]] = [[] for _ in steps]
    for caution in cautions:
        if caution.before in {Moment.CUTTING, Moment.BENDING}:
            continue
        places = [n for n, s in enumerate(steps) if s.work.value is caution.before]
        found[places[0] if places else -1].append(caution)
    return [tuple(c) for c in found]


def _words(step: Step, design: Design, lists: Lists) -> _Words:
    if step.work in _WHOLE:
        said = _WHOLE[step.work](design, lists)
        action = (*said.action, *job_words(step.jobs, step.work, lists))
        return _Words(title=said.title, action=action, check=said.check)
    match step.work:
        case Work.FLAT:
            return _flat_words(step, design, lists)
        case Work.STAND:
            return _stand_words(step, design, lists)
        case Work.BRACE:
            return _brace_words(step, lists)
        case Work.TIGHTEN:
            return _tighten_words(design)
        case Work.CAPS:
            return _cap_words(step, lists)
        case _:
            return _board_words(step, design)


_WHOLE: Mapping[Work, Callable[[Design, Lists], Said]] = {
    Work.SET_OUT: set_out_words,
    Work.SQUARE: square_words,
    Work.ANCHOR: anchor_words,
    Work.DOOR: door_words,
    Work.COVER: cover_words,
    Work.LAST_LOOK: last_words,
}


def _flat_words(step: Step, design: Design, lists: Lists) -> _Words:
    names = lists.frames(step.sub_frames)
    first, last = step.part_of[0] == 1, step.part_of[0] == step.part_of[1]
    if lists.are_bent(step):
        return _bent_words(step, design, lists)
    alike = len(step.sub_frames) > 1
    check = lists.flat_check(step) if last else HOME
    if first:
        title = f"Build {names} flat on the floor" + (", alike" if alike else "")
        lay = f"Lay out {lists.tubes_each(step)}{lists.feet_down(step)}{mouths_words(design, step.sub_frames[0])}."
    else:
        title, lay = f"Go on with {names}", f"Lay in {lists.tubes_each(step)}, still on the floor."
    put = f"Put on {lists.fittings(step.joints, len(step.sub_frames))}{' for each' if alike else ''}."
    return _Words(title=title, action=(lay, put) if step.joints else (lay,), check=check)


def _bent_words(step: Step, design: Design, lists: Lists) -> _Words:
    """Say which bent pieces belong together: halves that look alike may carry other stations."""
    kits: dict[str, list[str]] = {}
    members = list(dict.fromkeys(design.parts.piece(t).member for t in step.tubes))
    for member in members:
        marks = " + ".join(p.mark for p in design.parts.pieces if p.member == member)
        kits.setdefault(marks, []).append(next(f.id for f in design.assembly.flats if member in f.members))
    feet = sorted(p.path.start.x for p in design.parts.pieces if p.member == members[0])
    return _Words(
        title=f"Join the halves of {len(members)} hoops flat on the ground: {lists.frames(step.sub_frames)}",
        action=(
            *(f"{' and '.join(names)}: {marks}." for marks, names in kits.items()),
            f"Put on {lists.fittings(step.joints, 1)}.",
        ),
        check=f"Feet {lists.length(feet[-1] - feet[0])} apart, from the same edge to the same edge; no tip more than "
        f"{lists.slack} off flat ground",
    )


def _stand_words(step: Step, design: Design, lists: Lists) -> _Words:
    pieces = lists.pieces(step.tubes)
    raised = tuple(r.sub_frame for r in step.raises)
    if raised and pieces:
        title = f"Stand up {lists.frames(raised)} and add {pieces}"
    else:
        title = f"Stand up {lists.frames(raised)}" if raised else f"Add {pieces or lists.boards(step)}"
    waiting = waiting_words(step, design)
    return _Words(
        title=title,
        action=(*adding_words(step, design, lists), *((waiting,) if waiting else ())),
        check=HOME,
    )


def _brace_words(step: Step, lists: Lists) -> _Words:
    pieces = lists.pieces(step.tubes)
    fittings = f" with {lists.fittings(step.joints, 1)}" if step.joints else ""
    return _Words(
        title=f"Brace with {pieces}",
        action=(f"Clamp {pieces} on{fittings}, at the stations marked, while the frame is square.",),
        check="The diagonals are still equal",
    )


def _tighten_words(design: Design) -> _Words:
    early = sum(len(s.tightens) for s in design.assembly.steps if s.work is not Work.TIGHTEN)
    done = (f" {early} are tight already: the key does not reach them any more.",) if early else ()
    return _Words(
        title="Tighten everything",
        action=("Tighten every clamp, from the floor up, all bolts of one clamp in turn." + "".join(done),),
        check="No tube turns or slides by hand; the diagonals are still equal",
    )


def _board_words(step: Step, design: Design) -> _Words:
    return _Words(
        title=board_title(design, step.panels),
        action=tuple(laying_words(design, step.panels)),
        check="Lies flat and touches no fitting",
    )


def _cap_words(step: Step, lists: Lists) -> _Words:
    return _Words(
        title="Cap the open ends",
        action=(f"Push {lists.fittings(step.joints, 1)} onto the open ends.",),
        check="No sharp end is left",
    )
