"""Whether what was chosen can be clamped together: room on every tube, off bends and ends."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.catalog.fitting import PortRole
from tubeframe.errors import Finding, Severity
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.joints.facts import HeldOnce, OnBend, ShortOverhang, Slides, TooNear, TooShort
from tubeframe.joints.joint import uses_by_tube

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.joints.joint import Joint, PortUse, Tube

_ROUNDING = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """What a fitting takes up on a tube: between two places from its node at A, `held` on each side of `at` [mm]."""

    low: float
    high: float
    at: float
    held: float
    joint: Joint
    is_run: bool
    is_loose: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Crowding:
    """Two fittings on one tube that are too near, by how much [mm]."""

    tube: Tube
    first: Zone
    second: Zone
    short: float


def check(tubes: tuple[Tube, ...], joints: tuple[Joint, ...], workshop: Workshop) -> tuple[Finding, ...]:
    """Look every tube over."""
    uses = uses_by_tube(joints)
    zones = {t.id: _zones(t, uses.get(t.id, ())) for t in tubes}
    found: list[Finding] = []
    for tube in tubes:
        found += _too_near(tube, zones[tube.id], workshop)
        found += _on_bends(tube, zones[tube.id])
        found += _short_overhangs(tube, zones[tube.id], workshop)
        found += _held_once(tube, zones[tube.id])
        found += _slides(tube, zones[tube.id], workshop)
        found += _too_short(tube, uses.get(tube.id, ()))
    return tuple(found)


def _zones(tube: Tube, uses: Sequence[tuple[Joint, PortUse]]) -> tuple[Zone, ...]:
    length, found = tube.path.length, list[Zone]()
    for joint, use in uses:
        held, is_run = joint.held(use), use.role is PortRole.RUN
        if is_run:
            low, high = use.at - held, use.at + held
        else:
            low, high = (0.0, held) if use.end is TubeEnd.A else (length - held, length)
        found.append(
            Zone(low=low, high=high, at=use.at, held=held, joint=joint, is_run=is_run, is_loose=_turns(joint, use))
        )
    return tuple(sorted(found, key=lambda z: (z.at, z.low)))


def _crowded(tube: Tube, zones: tuple[Zone, ...], workshop: Workshop) -> Iterator[Crowding]:
    """Find fittings nearer than (G1 + G2)/2 and the key's gap; a cap or foot needs no key."""
    for a, b in pairwise(zones):
        gap = 0.0 if a.joint.is_end_piece or b.joint.is_end_piece else workshop.tool_gap
        short = rules.pitch(a.held, b.held, gap) - (b.at - a.at)
        if short > _ROUNDING:
            yield Crowding(tube=tube, first=a, second=b, short=short)


def _too_near(tube: Tube, zones: tuple[Zone, ...], workshop: Workshop) -> Iterator[Finding]:
    for found in _crowded(tube, zones, workshop):
        fact = TooNear(
            tube=tube.id,
            member=tube.member,
            first=found.first.joint.named,
            second=found.second.joint.named,
            apart=found.second.at - found.first.at,
            short=found.short,
        )
        yield Finding(code="J-pitch", severity=Severity.ERROR, subjects=(tube.id,), fact=fact)


def _on_bends(tube: Tube, zones: tuple[Zone, ...]) -> Iterator[Finding]:
    """Find clamps that do not keep half their grip and half an inch from a bend's start."""
    for zone in zones:
        for start, bend in tube.path.bends:
            if zone.joint.is_end_piece or rules.takes_fitting(bend.radius, zone.high - zone.low):
                continue
            off = rules.off_bend(zone.held) - max(start - zone.at, zone.at - start - bend.length)
            if off > _ROUNDING:
                yield Finding(
                    code="J-bend",
                    severity=Severity.ERROR,
                    subjects=(tube.id, *(u.tube for u in zone.joint.uses if u.tube != tube.id)),
                    fact=OnBend(tube=tube.id, fitting=zone.joint.named, short=off),
                )


def _short_overhangs(tube: Tube, zones: tuple[Zone, ...], workshop: Workshop) -> Iterator[Finding]:
    """Find tubes that do not go on past their last fitting far enough to be held."""
    length = tube.path.length
    free = ((TubeEnd.A, tube.end_a, 0.0, 1.0), (TubeEnd.B, tube.end_b, length, -1.0))
    for zone in (z for z in zones if z.is_run):
        least = rules.overhang(zone.held, workshop.catalog.rules.end_overhang)
        for end, kind, at, way in free:
            over = (zone.at - at) * way
            if kind is not EndKind.JOINT and over < least - _ROUNDING:
                fact = ShortOverhang(tube=tube.id, end=end, fitting=zone.joint.named, over=over, least=least)
                yield Finding(code="J-overhang", severity=Severity.ERROR, subjects=(tube.id,), fact=fact)


def _held_once(tube: Tube, zones: tuple[Zone, ...]) -> Iterator[Finding]:
    """Find tubes that are not held at two places, or at one and by the ground."""
    holds = sum(1 for z in zones if not z.joint.is_end_piece)
    grounded = sum(1 for e in (tube.end_a, tube.end_b) if e.is_grounded)
    if holds + grounded < 2 and not (holds == 0 and grounded == 1):
        yield Finding(code="J-held-once", severity=Severity.WARNING, subjects=(tube.id,), fact=HeldOnce(tube=tube.id))


def _turns(joint: Joint, use: PortUse) -> bool:
    return joint.fitting is not None and joint.fitting.kind.port(use.port).loose


def _slides(tube: Tube, zones: tuple[Zone, ...], workshop: Workshop) -> Iterator[Finding]:
    """Find rings that turn on a tube with no clamp next to them, within two gaps for the key, that stops them."""
    for ring in (z for z in zones if z.is_loose):
        gaps = [max(z.low - ring.high, ring.low - z.high) for z in zones if not z.is_loose]
        if not any(gap <= 2.0 * workshop.tool_gap + _ROUNDING for gap in gaps):
            fact = Slides(tube=tube.id, fitting=ring.joint.named)
            yield Finding(code="J-slides", severity=Severity.WARNING, subjects=(tube.id,), fact=fact)


def _too_short(tube: Tube, uses: Sequence[tuple[Joint, PortUse]]) -> Iterator[Finding]:
    """Find tubes of which their fittings leave nothing."""
    kinds = {TubeEnd.A: tube.end_a, TubeEnd.B: tube.end_b}
    left = tube.path.length - sum(joint.taken_off(use, kinds[use.end]) for joint, use in uses if use.end)
    if left < rules.LEAST_CUT:
        fact = TooShort(tube=tube.id, left=left, least=rules.LEAST_CUT)
        yield Finding(code="J-too-short", severity=Severity.ERROR, subjects=(tube.id,), fact=fact)
