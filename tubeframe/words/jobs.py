"""Work besides tubes, fittings and boards in words: what is let into the ground, anchored, hung, covered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.step import Work
from tubeframe.frame.job import JobKind
from tubeframe.words.whole import Said

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from tubeframe.design import Design
    from tubeframe.frame.job import Job
    from tubeframe.words.listing import Lists

_GATHERED = "Gather what hangs over at each end, tie it, and peg it down."


def job_words(jobs: Sequence[Job], work: Work, lists: Lists) -> tuple[str, ...]:
    """Give the sentences for the work of a step, in turn."""
    said = tuple(s for job in jobs for s in _WORDS[job.kind, work](job, lists))
    kinds = {job.kind for job in jobs}
    is_gathered = JobKind.COVER in kinds and JobKind.COVER_ENDS not in kinds
    return (*said, *((_GATHERED,) if is_gathered else ()))


def door_words(design: Design, lists: Lists) -> Said:
    """Say how what turns on its post is tried."""
    del lists
    names = " and the ".join(g.name for g in design.frame.groups) or "door"
    return Said(
        title=f"Try the {names}",
        action=(
            "Set the collars so that it hangs free of the ground, and tighten them. The rings' bolts only hold what "
            "turns: on the post the rings stay free.",
        ),
        check="It swings without dragging, stays where it is let go, and meets the latch post along its height",
    )


def cover_words(design: Design, lists: Lists) -> Said:
    """Say what goes before any cover."""
    del design, lists
    return Said(
        title="Put the cover on",
        action=("On a still morning, two people. Put tape over bolt heads and sharp ends that it will lie on.",),
        check="It is tight as a drum, touches no bolt head, and lifts nowhere by hand",
    )


def _drive_sockets(job: Job, lists: Lists) -> tuple[str, ...]:
    (above,) = job.lengths
    return (f"Drive a socket at every mark, upright, until {lists.length(above)} stand above the ground.",)


def _bolt_sockets(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return ("Drill through every socket and its leg and put the cross bolt in, nut tight.",)


def _let_in(job: Job, lists: Lists) -> tuple[str, ...]:
    places = ", ".join(lists.length(at) for at in job.lengths)
    return (
        "Let a threshold into the ground across each end, under the end feet, its top level with the ground.",
        f"Mark where studs stand on both, from the left foot's middle: {places}. Drive an anchor beside each mark and "
        "bolt the threshold to it.",
    )


def _screw_studs(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return ("Screw every stud's flange to its threshold, the stud upright.",)


def _strap(job: Job, lists: Lists) -> tuple[str, ...]:
    (apart,) = job.lengths
    return (
        f"Stand a board on edge along the feet of each side, drive an anchor every {lists.length(apart)} at most and "
        "bolt the board to it.",
        "Strap every leg to its board with two straps, felt between zinc and treated wood.",
    )


def _flanges(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return ("Put a washer under every bolt's head where its hole is wide.",)


def _pockets(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return (
        "Set a block into each stake pocket, level with the bed rail, and bolt it through the pocket.",
        "Stand the rack on the blocks, square it there, and screw every flange down.",
    )


def _tie(job: Job, lists: Lists) -> tuple[str, ...]:
    (off,) = job.lengths
    return (
        f"Stand it before the wall, the back posts' middles {lists.length(off)} off it, and screw the ties to studs or "
        "into solid wall, then to the posts.",
    )


def _latch(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return ("Fix the latch at hip height, so that it holds the door against wind from both sides.",)


def _cover_ends(job: Job, lists: Lists) -> tuple[str, ...]:
    (folded,) = job.lengths
    return (
        f"Ends first: fold {lists.length(folded)} of each piece round the end hoop and clip it there, its lower edge "
        "in the earth before the threshold. Cut a doorway out and fold its edges round the studs.",
    )


def _cover(job: Job, lists: Lists) -> tuple[str, ...]:
    tucked, past, apart = job.lengths
    return (
        f"Draw the long piece over, even on both sides, {lists.length(past)} past each end. Clip it to one end hoop, "
        f"pull it tight along the ridge, clip it to the other: a clip every {lists.length(apart)}.",
        f"Then the sides, from the middle out: pull down, clip to the base rails, and tuck {lists.length(tucked)} into "
        "a trench or under a board.",
    )


def _cover_door(job: Job, lists: Lists) -> tuple[str, ...]:
    (folded,) = job.lengths
    return (f"Cover the door by itself: fold {lists.length(folded)} round its frame and clip it all round.",)


def _roll_up(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return (
        "Where sides roll up, clip the film to the rail over them, not to the base rail; clip its lower edge to the "
        "roll-up bar, and hang the bar level.",
    )


def _brakes(job: Job, lists: Lists) -> tuple[str, ...]:
    del job, lists
    return ("Put brakes on two casters that stand diagonally, and try them on the floor it will stand on.",)


_WORDS: Mapping[tuple[JobKind, Work], Callable[[Job, Lists], tuple[str, ...]]] = {
    (JobKind.SOCKETS, Work.SET_OUT): _drive_sockets,
    (JobKind.SOCKETS, Work.ANCHOR): _bolt_sockets,
    (JobKind.THRESHOLDS, Work.SET_OUT): _let_in,
    (JobKind.THRESHOLDS, Work.ANCHOR): _screw_studs,
    (JobKind.BASEBOARDS, Work.ANCHOR): _strap,
    (JobKind.FLANGES, Work.ANCHOR): _flanges,
    (JobKind.POCKETS, Work.ANCHOR): _pockets,
    (JobKind.WALL_TIES, Work.ANCHOR): _tie,
    (JobKind.LATCH, Work.DOOR): _latch,
    (JobKind.COVER_ENDS, Work.COVER): _cover_ends,
    (JobKind.COVER, Work.COVER): _cover,
    (JobKind.COVER_DOOR, Work.COVER): _cover_door,
    (JobKind.ROLL_UP, Work.COVER): _roll_up,
    (JobKind.BRAKES, Work.LAST_LOOK): _brakes,
}
