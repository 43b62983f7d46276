"""What is done to the whole frame, in words: setting out, squaring, anchoring."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.diagonals import floor_diagonal
from tubeframe.catalog.fitting import OnFloor
from tubeframe.fabrication.stakes import stake_ends, stake_lots
from tubeframe.frame.job import JobKind

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.words.listing import Lists

_LOW = 50.0
"""An end lower than this stands on the ground [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A title, sentences, and what is checked."""

    title: str
    action: tuple[str, ...]
    check: str


def set_out_words(design: Design, lists: Lists) -> Said:
    """Give the numbers that a rectangle of stakes is pegged out by."""
    stakes = stake_ends(design.parts)
    feet = stakes or _set_out(design)
    xs, ys = sorted({round(x, 2) for x, _ in feet}), sorted({round(y, 2) for _, y in feet})
    running = ", ".join(lists.length(y - ys[0]) for y in ys)
    depths = [
        f" {lists.length(lot.stake.in_ground)} deep, {lists.length(lot.inside)} left above the ground"
        for lot in stake_lots(design.parts, design.workshop)
        if lot.stake
    ]
    across, along = xs[-1] - xs[0], ys[-1] - ys[0]
    corners = "stakes" if stakes else "feet"
    width, length = lists.length(across), lists.length(along)
    return Said(
        title=f"Set out the base and drive {len(feet)} stakes" if stakes else "Set out the base",
        action=(
            f"Peg out a rectangle with string, {width} wide and {length} long, through the middles of the feet.",
            f"Mark the feet along both long sides, from one corner: {running}.",
            *((f"Drive a stake{depths[0] if depths else ''}, upright, at every mark.",) if stakes else ()),
        ),
        check=f"Both diagonals of the corner {corners} {lists.length(math.hypot(across, along))}",
    )


def _set_out(design: Design) -> tuple[tuple[float, float], ...]:
    """Return x and y of the feet of what carries the asked size [mm]."""
    sizing = design.frame.sized_by
    members = [m for m in design.frame.members if not sizing or m.id in sizing]
    ends = (p for m in members for p in (m.path.start, m.path.end))
    return tuple((p.x, p.y) for p in ends if p.z < _LOW)


def square_words(design: Design, lists: Lists) -> Said:
    """Say which faces are made square, each by its number."""
    faces = design.assembly.faces
    shown = "; ".join(f"{f.name} {lists.length(f.diagonal)}" for f in faces)
    longest = max((f.diagonal for f in faces), default=floor_diagonal(design.parts))
    check = f"Both diagonals of each: {shown}; " if faces else "Both diagonals of every face "
    return Said(
        title="Set it square",
        action=(
            "Measure both diagonals of every face; push the long one until both are equal.",
            "Snug the clamps from the floor up, measuring again after each round.",
        ),
        check=f"{check}equal within {lists.square(longest)}",
    )


def anchor_words(design: Design, lists: Lists) -> Said:
    """Say where the cross pins go, or how flanges are fixed."""
    if not stake_ends(design.parts):
        return _fixing_words(design, lists)
    stake = design.workshop.catalog.stake(design.frame.members[0].tube)
    hole = (
        f"{lists.length(stake.pin_diameter)} hole, {lists.length(stake.pin_height)}"
        if stake
        else "hole, a hand's width"
    )
    return Said(
        title="Pin every foot to its stake",
        action=(f"Drill a {hole} above the ground, through leg and stake. Push a cross pin through and secure it.",),
        check="Pull up hard on every leg: nothing moves",
    )


def _fixing_words(design: Design, lists: Lists) -> Said:
    """Say how what stands on no stakes is fixed; jobs have words of their own."""
    kinds = {s.job.kind for s in design.frame.supplies if s.job is not None}
    flanges = [j for j in design.jointed.joints if j.fitting and j.fitting.kind.on_floor is OnFloor.BOLTED]
    bolted = bool(flanges) and not kinds & {JobKind.SOCKETS, JobKind.BASEBOARDS, JobKind.POCKETS}
    squared = f"both diagonals between the feet {lists.length(floor_diagonal(design.parts))}."
    action: tuple[str, ...] = ()
    if bolted:
        action = (
            f"Set it where it is to stand and square it there: {squared}",
            f"Mark the holes of all {len(flanges)} flanges, drill, and bolt every flange down with what the buying "
            "list names for it.",
        )
    elif kinds & {JobKind.SOCKETS, JobKind.BASEBOARDS}:
        action = (f"Square it where it stands: {squared}",)
    check = "No flange lifts or turns by hand" if bolted else "Pull and push hard at every post: nothing moves"
    return Said(title="Fix it in its place", action=action, check=check)


def last_words(design: Design, lists: Lists) -> Said:
    """Say how the finished frame is tried."""
    del design, lists
    return Said(
        title="Look it all over",
        action=("Shake it, load it gently, and tighten every clamp once more. Do so again the next day.",),
        check="Nothing slipped: every clamp is still on its mark",
    )
