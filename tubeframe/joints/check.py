"""Whether what was chosen can be clamped together: room on every tube, off bends and ends, nothing through others."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog.bending import BEND_CLEARANCE
from tubeframe.catalog.fitting import PortRole
from tubeframe.errors import Finding, Severity
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.joints.boards import board_findings
from tubeframe.joints.bodies import body_findings, wall_findings
from tubeframe.joints.facts import HeldOnce, OnBend, ShortOverhang, TooNear
from tubeframe.joints.fouling import fouling_findings
from tubeframe.joints.pieces import apart_findings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Joint, Tube

_ROUNDING = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """What a fitting takes up on a tube: between two places from its node at A [mm]; `at` is its middle or its end."""

    low: float
    high: float
    at: float
    joint: Joint
    is_run: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Crowding:
    """Two fittings on one tube that are too near, by how much [mm]."""

    tube: Tube
    first: Zone
    second: Zone
    short: float


def check(frame: Frame, tubes: tuple[Tube, ...], joints: tuple[Joint, ...], workshop: Workshop) -> tuple[Finding, ...]:
    """Look every tube over, then the frame as a whole."""
    zones = {t.id: _zones(t, joints) for t in tubes}
    found: list[Finding] = []
    for tube in tubes:
        found += _too_near(tube, zones[tube.id], workshop)
        found += _on_bends(tube, zones[tube.id])
        found += _short_overhangs(tube, zones[tube.id], workshop)
        found += _held_once(tube, zones[tube.id])
    found += fouling_findings(tubes, joints, workshop)
    found += body_findings(tubes, joints, workshop)
    found += wall_findings(frame, tubes, joints, workshop)
    found += board_findings(frame, tubes, workshop)
    found += apart_findings(tubes, joints)
    return tuple(found)


def _zones(tube: Tube, joints: tuple[Joint, ...]) -> tuple[Zone, ...]:
    length, found = tube.path.length, list[Zone]()
    for joint in joints:
        for use in (u for u in joint.uses if u.tube == tube.id):
            held = joint.held(use) if use.role is not PortRole.END else (joint.fitting.skirt if joint.fitting else 0.0)
            if use.role is PortRole.RUN:
                low, high = use.at - held, use.at + held
            else:
                low, high = (0.0, held) if use.end is TubeEnd.A else (length - held, length)
            found.append(Zone(low=low, high=high, at=use.at, joint=joint, is_run=use.role is PortRole.RUN))
    return tuple(sorted(found, key=lambda z: (z.at, z.low)))


def crowdings(tubes: tuple[Tube, ...], joints: tuple[Joint, ...], workshop: Workshop) -> tuple[Crowding, ...]:
    """Find fittings nearer than (G1 + G2)/2 and the key's gap on any tube; a cap or foot needs no key."""
    return tuple(c for t in tubes for c in _crowded(t, _zones(t, joints), workshop))


def _crowded(tube: Tube, zones: tuple[Zone, ...], workshop: Workshop) -> Iterator[Crowding]:
    for a, b in pairwise(zones):
        gap = 0.0 if a.joint.is_end_piece or b.joint.is_end_piece else workshop.tool_gap
        if b.low - a.high < gap - _ROUNDING:
            yield Crowding(tube=tube, first=a, second=b, short=gap - (b.low - a.high))


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
            low, high = start - BEND_CLEARANCE, start + bend.length + BEND_CLEARANCE
            if zone.high > low + _ROUNDING and zone.low < high - _ROUNDING and not zone.joint.is_end_piece:
                off = min(zone.high - low, high - zone.low)
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
        least = (zone.high - zone.low) / 2.0 + workshop.catalog.rules.end_overhang
        for end, kind, at, way in free:
            over = (zone.at - at) * way
            if kind is not EndKind.JOINT and over < least - _ROUNDING:
                fact = ShortOverhang(tube=tube.id, end=end, fitting=zone.joint.named, over=over, least=least)
                yield Finding(code="J-overhang", severity=Severity.ERROR, subjects=(tube.id,), fact=fact)


def _held_once(tube: Tube, zones: tuple[Zone, ...]) -> Iterator[Finding]:
    """Find tubes that are not held at two places, or at one and by the ground."""
    holds = sum(1 for z in zones if not z.joint.is_end_piece)
    grounded = sum(1 for e in (tube.end_a, tube.end_b) if e in {EndKind.STAKE, EndKind.FOOT, EndKind.BASE_FLANGE})
    if holds + grounded < 2 and not (holds == 0 and grounded == 1):
        yield Finding(code="J-held-once", severity=Severity.WARNING, subjects=(tube.id,), fact=HeldOnce(tube=tube.id))
