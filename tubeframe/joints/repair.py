"""Repairs of a frame. One is offered only when the whole frame was checked with it done."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import BendError, FrameError, Severity
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.joints.check import crowdings
from tubeframe.joints.remedies import changes, parted
from tubeframe.joints.resolve import plainly_jointed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.change import Change
    from tubeframe.joints.joint import Jointed

Fault = tuple[str, str]
"""A finding's code, and where it is."""

_MOST_TRIED = 120
_MOST_TRIED_A_FAULT = 24
_MOST_OFFERED_A_FAULT = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A change in words, where it helps, and the frame with it done."""

    where: str
    words: str
    frame: Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sound:
    """What a repair must not make worse: errors, the lowest point [mm], which members are held, which carry boards."""

    errors: Counter[Fault]
    lowest: float
    ties: frozenset[frozenset[str]]
    carried: frozenset[tuple[str, str]]


def repairs(frame: Frame, workshop: Workshop) -> tuple[Repair, ...]:
    """Return changes that mend a fault and bring no new one; at most two a fault, the smallest first.

    With a change done, every check is run again, every two tubes that were held together have to be so still, and
    every board has to lie on the tubes that it lay on.
    """
    found = plainly_jointed(frame, workshop)
    before = _sound(frame, found, workshop)
    offers: list[Repair] = []
    known: set[str] = set()
    tried = 0
    for fault, attempts in _attempts(frame, found, workshop):
        where, offered = fault[1], 0
        for change in list(attempts)[:_MOST_TRIED_A_FAULT]:
            if change.words in known:
                continue
            known.add(change.words)
            tried += 1
            if tried > _MOST_TRIED:
                return tuple(offers)
            mended = _mended(change.frame, before, fault, workshop)
            if mended is not None:
                words = change.words + _with_what(found, mended)
                offers.append(Repair(where=where, words=words, frame=change.frame))
                offered += 1
            if offered == _MOST_OFFERED_A_FAULT:
                break
    return tuple(offers)


def _attempts(frame: Frame, found: Jointed, workshop: Workshop) -> Iterator[tuple[Fault, Iterator[Change]]]:
    for crowding in crowdings(found.tubes, found.joints, workshop):
        yield ("J-pitch", crowding.tube.id), parted(crowding, frame, found, workshop)
    for finding in found.findings:
        if finding.severity is Severity.ERROR:
            yield (finding.code, _place(finding)), iter(changes(finding, frame, found, workshop))


def _mended(changed: Frame, before: _Sound, fault: Fault, workshop: Workshop) -> Jointed | None:
    """Return the joints when the fault is less, none came and nothing came loose; else None."""
    if any(m.path.length <= PLANE_MM for m in changed.members):
        return None
    try:
        found = plainly_jointed(changed, workshop)
    except (BendError, FrameError):
        return None
    after = _sound(changed, found, workshop)
    fewer = after.errors[fault] < before.errors[fault] and not after.errors - before.errors
    kept = before.ties <= after.ties and before.carried <= after.carried and after.lowest >= before.lowest - PLANE_MM
    return found if fewer and kept else None


def _with_what(before: Jointed, after: Jointed) -> str:
    """Name the fittings that a repair brings: one that takes two ends, or a coupler between tubes that pass."""
    kinds = [Counter(j.kind for j in found.joints if j.fitting and not j.is_end_piece) for found in (after, before)]
    new = kinds[0] - kinds[1]
    return "; use " + " and ".join(f"{n} {kind}" for kind, n in new.items()) if new else ""


def _sound(frame: Frame, found: Jointed, workshop: Workshop) -> _Sound:
    member_of = {t.id: str(t.member) for t in found.tubes}
    ties = (
        frozenset((member_of[a.tube], member_of[b.tube]))
        for j in found.joints
        if j.fitting
        for a in j.uses
        for b in j.uses
    )
    return _Sound(
        errors=_errors(found.findings),
        lowest=min(p.z for m in frame.members for p in (m.path.start, m.path.end)),
        ties=frozenset(t for t in ties if len(t) == 2),
        carried=frozenset(_carried(frame, workshop)),
    )


def _place(finding: Finding) -> str:
    return ", ".join(finding.subjects)


def _errors(findings: tuple[Finding, ...]) -> Counter[Fault]:
    return Counter((f.code, _place(f)) for f in findings if f.severity is Severity.ERROR)


def _carried(frame: Frame, workshop: Workshop) -> Iterator[tuple[str, str]]:
    """Give every board with each tube that touches its underside."""
    for panel in frame.panels:
        for member in frame.members:
            middle = panel.placement.seen(member.path.point(member.path.length / 2.0) - panel.placement.origin)
            radius = workshop.catalog.tube(member.tube).outside / 2.0
            over = -PLANE_MM <= middle.x <= panel.length + PLANE_MM and -PLANE_MM <= middle.y <= panel.width + PLANE_MM
            if over and abs(middle.z + radius) <= PLANE_MM:
                yield panel.id, str(member.id)
