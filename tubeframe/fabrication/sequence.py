"""The steps of the assembly, in words and in the order of the joints."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.cautions import all_cautions
from tubeframe.fabrication.diagonals import floor_diagonal, sub_frame_diagonal
from tubeframe.fabrication.explode import Apart
from tubeframe.fabrication.hints import bolt_words, closing_words
from tubeframe.fabrication.order import Batch, Work, batches
from tubeframe.fabrication.stakes import stake_ends, stake_lots
from tubeframe.fabrication.step import Step
from tubeframe.frame.caution import Moment
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.units import FOOT_MM, INCH_MM, Units, format_length
from tubeframe.joints.loops import rings

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.subframes import SubFrame
    from tubeframe.frame.caution import Caution
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Jointed
    from tubeframe.parts.piece import Parts


_FINGER_TIGHT = "Bolts finger-tight."


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Everything that the words of a step are made from."""

    frame: Frame
    jointed: Jointed
    parts: Parts
    workshop: Workshop
    flats: tuple[SubFrame, ...]

    def length(self, value: float) -> str:
        """Print a length [mm]."""
        return format_length(value, self.workshop.units)

    @property
    def slack(self) -> str:
        """Print how far off flat a thing may lie; common practice, no source."""
        return '1/8"' if self.workshop.units is Units.INCH else "3 mm"

    def square(self, diagonal: float) -> str:
        """Print how far two diagonals may differ: 1/8 in in 4 ft of length [mm]; common practice, no source."""
        return self.length(max(1.0, diagonal / (4.0 * FOOT_MM)) * INCH_MM / 8.0)

    @property
    def key(self) -> str:
        """Name the hex key."""
        return f"{self.workshop.catalog.bolt.hex_key:g} mm hex key"


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What a step says."""

    title: str
    action: tuple[str, ...]
    check: str
    tool: str
    hands: int


def assembly_steps(
    frame: Frame, jointed: Jointed, parts: Parts, flats: tuple[SubFrame, ...], workshop: Workshop
) -> tuple[Step, ...]:
    """Write the steps; every tube, joint and board is added in exactly one of them."""
    job = Job(frame=frame, jointed=jointed, parts=parts, workshop=workshop, flats=flats)
    order = batches(frame, jointed, parts, flats)
    warned = _cautions_by_step(order, all_cautions(frame))
    closed = rings(jointed.tubes, jointed.joints)
    apart = Apart(frame, jointed)
    steps: list[Step] = []
    for number, batch in enumerate(order, start=1):
        first_link = batch.work is Work.LINK and all(b.work is not Work.LINK for b in order[: number - 1])
        words = _words(batch, job, stands=first_link)
        added = {m.id for m in batch.members}
        tubes = tuple(t.id for t in jointed.tubes if t.member in added)
        there = {t for step in steps for t in step.tubes}.union(tubes)
        steps.append(
            Step(
                number=number,
                title=words.title,
                tubes=tubes,
                joints=batch.joints,
                panels=batch.panels,
                moves=apart.moves(batch),
                sub_frame=batch.sub_frames[0].id if len(batch.sub_frames) == 1 else "",
                hands=words.hands,
                tool=words.tool,
                action=(
                    *words.action,
                    *closing_words(tubes, there, closed, parts),
                    *bolt_words(batch.joints, jointed),
                ),
                check=words.check,
                cautions=warned[number - 1],
            )
        )
    return tuple(steps)


def _cautions_by_step(order: Sequence[Batch], cautions: Sequence[Caution]) -> list[tuple[Caution, ...]]:
    """Put each caution before the first step of its work; what has no such step goes before the last one."""
    found: list[list[Caution]] = [[] for _ in order]
    for caution in cautions:
        if caution.before in {Moment.CUTTING, Moment.BENDING}:
            continue
        places = [n for n, b in enumerate(order) if b.work.value is caution.before]
        found[places[0] if places else -1].append(caution)
    return [tuple(c) for c in found]


def _words(batch: Batch, job: Job, *, stands: bool) -> Words:
    if batch.work is Work.FLAT:
        return _flat_words(batch, job)
    if batch.work is Work.LINK:
        return _link_words(batch, job, stands=stands)
    plain = {
        Work.SET_OUT: _set_out_words,
        Work.SQUARE: _square_words,
        Work.BRACE: _brace_words,
        Work.TIGHTEN: _tighten_words,
        Work.STRIPS: _board_words,
        Work.TOP: _board_words,
        Work.ANCHOR: _anchor_words,
        Work.CAPS: _cap_words,
        Work.LAST_LOOK: _last_words,
    }
    return plain[batch.work](batch, job)


def _flat_words(batch: Batch, job: Job) -> Words:
    if len(batch.members) == len(batch.sub_frames):
        return _bent_words(batch, job)
    diagonal = sub_frame_diagonal(batch.sub_frames[0], job.parts)
    return Words(
        title=f"Build frame {batch.sub_frames[0].id} flat on the floor",
        action=(
            f"Lay out {_pieces(batch, job)} as the picture shows, end A of the legs at the feet.",
            f"Put on {_fittings(batch, job)}. Slide every end in until it stops. {_FINGER_TIGHT}",
        ),
        check="All tubes lie flat"
        if diagonal is None
        else f"Both diagonals {job.length(diagonal)}, from the same edge of a tube to the same edge",
        tool=job.key,
        hands=1,
    )


def _bent_words(batch: Batch, job: Job) -> Words:
    """Say which bent pieces belong together: halves that look alike may carry other stations."""
    kits: dict[str, list[str]] = {}
    for member in batch.members:
        marks = " + ".join(p.mark for p in job.parts.pieces if p.member == member.id)
        kits.setdefault(marks, []).append(member.id)
    feet = sorted(p.path.start.x for p in job.parts.pieces if p.member == batch.members[0].id)
    return Words(
        title=f"Join the halves of {len(batch.members)} hoops flat on the ground"
        if len(job.parts.pieces) > len(batch.members)
        else f"Lay out {len(batch.members)} hoops",
        action=(
            *(f"{', '.join(names)}: {marks}." for marks, names in kits.items()),
            f"Put on {_fittings(batch, job)}. Slide every end in until it stops. {_FINGER_TIGHT}",
        ),
        check=f"Feet {job.length(feet[-1] - feet[0])} apart, from the same edge to the same edge; no tip more than "
        f"{job.slack} off flat ground",
        tool=job.key,
        hands=2,
    )


def _link_words(batch: Batch, job: Job, *, stands: bool) -> Words:
    pieces, fittings = _pieces(batch, job), _fittings(batch, job)
    title = f"Stand the frames up and join them with {pieces}" if stands else f"Add {pieces}"
    how = f"Put in {pieces} with {fittings}, at the stations marked." if batch.joints else f"Put in {pieces}."
    corners = _waiting_kinds(batch, job)
    return Words(
        title=title,
        action=(
            *((_standing_words(job),) if stands else ()),
            f"{how}{corners} {_FINGER_TIGHT}",
        ),
        check="Every end sits home in its fitting, every station mark is at the middle of its clamp",
        tool=job.key,
        hands=2,
    )


def _standing_words(job: Job) -> str:
    """Say how flat frames are stood up: one after the other, so that two people are enough."""
    if stake_ends(job.parts):
        return "Slip the hoops over their stakes one after the other; tie each to the last by a clamp before the next."
    return "Stand the first flat frame up and hold it; bring the next one beside it."


def _waiting_kinds(batch: Batch, job: Job) -> str:
    """Name the fittings that stand already and take the new ends."""
    added = {m.id for m in batch.members}
    tubes = {t.id for t in job.jointed.tubes if t.member in added}
    kinds = dict.fromkeys(
        j.kind.replace("-", " ")
        for j in job.jointed.joints
        if j.id not in batch.joints and not j.is_end_piece and any(u.tube in tubes for u in j.uses)
    )
    return f" Their ends go into the {' and the '.join(_plural(k, 2) for k in kinds)} that stand." if kinds else ""


def _set_out_words(batch: Batch, job: Job) -> Words:
    """Give the numbers that a rectangle of stakes is pegged out by."""
    del batch
    feet = stake_ends(job.parts)
    xs, ys = sorted({round(x, 2) for x, _ in feet}), sorted({round(y, 2) for _, y in feet})
    running = ", ".join(job.length(y - ys[0]) for y in ys)
    depths = [
        f" {job.length(lot.stake.in_ground)} deep, {job.length(lot.inside)} left above the ground"
        for lot in stake_lots(job.parts, job.workshop)
        if lot.stake
    ]
    width, length = job.length(xs[-1] - xs[0]), job.length(ys[-1] - ys[0])
    return Words(
        title=f"Set out the base and drive {len(feet)} stakes",
        action=(
            f"Peg out a rectangle with string, {width} wide and {length} long, through the middles of the feet.",
            f"Mark the feet along both long sides, from one corner: {running}.",
            f"Drive a stake{depths[0] if depths else ''}, upright, at every mark.",
        ),
        check=f"Both diagonals of the corner stakes {job.length(floor_diagonal(job.parts))}",
        tool="string, tape, hammer",
        hands=2,
    )


def _square_words(batch: Batch, job: Job) -> Words:
    del batch
    faces = sorted({round(d, 1) for s in job.flats if (d := sub_frame_diagonal(s, job.parts)) is not None})
    floor = floor_diagonal(job.parts)
    shown = "".join(f", of each end {job.length(d)}" for d in faces)
    return Words(
        title="Set it square",
        action=(
            "Measure both diagonals of every face; push the long one until both are equal.",
            "Snug the clamps from the floor up, measuring again after each round.",
        ),
        check=f"Diagonals: on the floor {job.length(floor)}{shown}; equal within {job.square(floor)}",
        tool=f"tape, {job.key}",
        hands=2,
    )


def _brace_words(batch: Batch, job: Job) -> Words:
    pieces = _pieces(batch, job)
    return Words(
        title=f"Brace with {pieces}",
        action=(f"Clamp {pieces} on with {_fittings(batch, job)}, at the stations marked, while the frame is square.",),
        check="The diagonals are still equal",
        tool=job.key,
        hands=2,
    )


def _tighten_words(batch: Batch, job: Job) -> Words:
    del batch
    return Words(
        title="Tighten everything",
        action=("Tighten every clamp, from the floor up, all bolts of one clamp in turn.",),
        check="No tube turns or slides by hand; the diagonals are still equal",
        tool=job.key,
        hands=1,
    )


def _board_words(batch: Batch, job: Job) -> Words:
    uses = {p.id: p.use for p in job.frame.panels}
    marks = Counter(g.mark for g in job.parts.panel_groups for p in g.panels if p.id in batch.panels)
    shown = _listed(marks)
    if uses[batch.panels[0]] is PanelUse.STRIP:
        title, action = (
            f"Lay the strips {shown} on the long rails",
            "Lay a strip along each long rail, clear of the fittings.",
        )
    else:
        title, action = (
            f"Lay on the top {shown}",
            "Lay the top on, even on all sides, and strap it to the rails from below.",
        )
    return Words(title=title, action=(action,), check="Lies flat and touches no fitting", tool="screwdriver", hands=2)


def _anchor_words(batch: Batch, job: Job) -> Words:
    del batch
    stake = job.workshop.catalog.stake(job.frame.members[0].tube)
    hole = f"{job.length(stake.pin_diameter)} hole, {job.length(stake.pin_height)}" if stake else "hole, a hand's width"
    return Words(
        title="Pin every foot to its stake",
        action=(f"Drill a {hole} above the ground, through leg and stake. Push a cross pin through and secure it.",),
        check="Pull up hard on every leg: nothing moves",
        tool="drill, cross pins",
        hands=1,
    )


def _cap_words(batch: Batch, job: Job) -> Words:
    return Words(
        title="Cap the open ends",
        action=(f"Push {_fittings(batch, job)} onto the open ends.",),
        check="No sharp end is left",
        tool="soft hammer",
        hands=1,
    )


def _last_words(batch: Batch, job: Job) -> Words:
    del batch
    return Words(
        title="Look it all over",
        action=("Shake it, load it gently, and tighten every clamp once more. Do so again the next day.",),
        check="Nothing slipped: every station mark is still at the middle of its clamp",
        tool=job.key,
        hands=1,
    )


def _pieces(batch: Batch, job: Job) -> str:
    added = {m.id for m in batch.members}
    return _listed(Counter(p.mark for g in job.parts.groups for p in g.pieces if p.member in added))


def _fittings(batch: Batch, job: Job) -> str:
    kinds = Counter(j.kind for j in job.jointed.joints if j.id in batch.joints)
    return ", ".join(f"{n} {_plural(kind.replace('-', ' '), n)}" for kind, n in kinds.items()) or "nothing new"


def _listed(counts: Counter[str]) -> str:
    return ", ".join(f"{n} x {mark}" for mark, n in counts.items())


def _plural(word: str, number: int) -> str:
    if number == 1:
        return word
    return word[:-4] + "feet" if word.endswith("foot") else word + ("es" if word.endswith("s") else "s")
