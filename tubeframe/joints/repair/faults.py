"""Faults: findings that one change should mend together, such as both posts of a pair or all tubes that one crosses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Severity
from tubeframe.frame.member import MemberId
from tubeframe.joints.facts import (
    Apart,
    BadSplit,
    BodiesMeet,
    Fouling,
    InBoard,
    InWall,
    LooseEnd,
    NoFitting,
    OnBend,
    OnePoint,
    ShortOverhang,
    SplitFault,
    TooNear,
    TubeInBody,
)
from tubeframe.joints.repair.apply import outward

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator

    from tubeframe.errors import Fact, Finding
    from tubeframe.joints.repair.scene import Scene

_HUGE = 1e9


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Findings of one kind, the first of them leading; `common` is the tube that all of them name, if there is one.

    `parts` are faults that are alike at several places, when it is made of such.
    """

    findings: tuple[Finding, ...]
    common: MemberId | None = None
    parts: tuple[Fault, ...] = ()

    @property
    def fact(self) -> Fact:
        """What was found first."""
        return self.findings[0].fact


def faults_of(scene: Scene) -> Iterator[Fault]:
    """Give the errors of a frame, what is most amiss first: that often mends the rest.

    Each comes with its twins at other places, then with its likes at one place, then alone.
    """
    errors = sorted((f for f in scene.found.findings if f.severity is Severity.ERROR), key=_urgency)
    bonds = [tuple(_bonds(f.fact, scene)) for f in errors]
    shapes = [_shape(f.fact) for f in errors]
    given: set[tuple[int, ...]] = set()
    for n, finding in enumerate(errors):
        parts = _parts([k for k in range(len(errors)) if shapes[n] and shapes[k] == shapes[n]], errors, bonds, scene)
        twins = tuple(k for ks, _ in parts for k in ks)
        if len(parts) > 1 and twins not in given:
            given.add(twins)
            yield Fault(findings=tuple(errors[k] for k in twins), parts=tuple(p for _, p in parts))
        groups = [(b, _likes(n, b, errors, bonds)) for b in bonds[n]]
        for bond, group in sorted(groups, key=lambda g: -len(g[1])):
            if len(group) > 1 and group not in given:
                given.add(group)
                yield _together(group, bond, errors, scene)
        yield Fault(findings=(finding,))


def _parts(
    twins: list[int], errors: list[Finding], bonds: list[tuple[Hashable, ...]], scene: Scene
) -> list[tuple[tuple[int, ...], Fault]]:
    """Part findings that are alike into those that share something and those that do not."""
    left, found = list(twins), []
    while left:
        n = left[0]
        likes = [(b, tuple(k for k in _likes(n, b, errors, bonds) if k in left)) for b in bonds[n]]
        bond, group = max(likes, key=lambda g: len(g[1]), default=(None, (n,)))
        found.append((group, _together(group, bond, errors, scene)))
        left = [k for k in left if k not in group]
    return found


def _together(group: tuple[int, ...], bond: Hashable, errors: list[Finding], scene: Scene) -> Fault:
    common = MemberId(bond) if len(group) > 1 and isinstance(bond, str) and bond in scene.members else None
    return Fault(findings=tuple(errors[k] for k in group), common=common)


def _shape(fact: Fact) -> Hashable:
    """Say what is the same of a fault at several places; None where that says nothing."""
    match fact:
        case TooNear():
            return (TooNear, fact.first.kind, fact.second.kind, round(fact.short, 1), round(fact.apart, 1))
        case NoFitting():
            nearest = fact.nearest and (fact.nearest[0], type(fact.nearest[1]))
            return (NoFitting, fact.runs, fact.branches, nearest, round(fact.at.z, 1))
        case LooseEnd():
            return (LooseEnd, round(fact.gap, 1), fact.is_on_bend)
        case Fouling():
            return (Fouling, round(fact.distance, 1), round(fact.least, 1))
        case OnBend():
            return (OnBend, fact.fitting.kind, round(fact.short, 1))
        case TubeInBody():
            return (TubeInBody, fact.fitting.kind, round(fact.short, 1))
        case BadSplit():
            return (BadSplit, round(fact.at, 1), fact.fault)
        case _:
            return None


def _urgency(finding: Finding) -> float:
    """Rank a finding: what has no joint at all, then what hangs on nothing, then by what is short [mm].

    Bodies that run into each other come last: more room on a tube mends most of them.
    """
    fact = finding.fact
    match fact:
        case OnePoint() | NoFitting() | LooseEnd():
            return -2.0 * _HUGE
        case BadSplit():
            return 0.0 if fact.fault is SplitFault.IN_THE_WAY else -2.0 * _HUGE
        case Apart():
            return -_HUGE
        case Fouling():
            return fact.distance - fact.least
        case TooNear() | OnBend() | ShortOverhang() | InBoard() | InWall():
            return -fact.short
        case _:
            return 0.0


def _likes(n: int, bond: Hashable, errors: list[Finding], bonds: list[tuple[Hashable, ...]]) -> tuple[int, ...]:
    kind = type(errors[n].fact)
    return tuple(k for k, e in enumerate(errors) if type(e.fact) is kind and bond in bonds[k])


def _bonds(fact: Fact, scene: Scene) -> Iterator[Hashable]:
    """Give what a finding may have in common with others of its kind; a tube's name, where it is one."""
    match fact:
        case ShortOverhang():
            member = scene.members_of((fact.tube,))[0]
            yield (round(fact.short, 1), *(round(c, 3) for c in outward(scene.members[member], fact.end)[1]))
            yield (round(fact.short, 1), member)
        case TooNear():
            yield frozenset(scene.members_of(named.others(fact.tube)) for named in (fact.first, fact.second))
        case LooseEnd() | BadSplit():
            yield fact.member
        case Fouling() | OnePoint():
            yield from scene.members_of((fact.first, fact.second))
        case OnBend():
            yield from scene.members_of(fact.fitting.others(fact.tube))
        case TubeInBody():
            yield from scene.members_of((fact.tube,))
        case BodiesMeet():
            yield from scene.members_of((*fact.first.tubes, *fact.second.tubes))
        case InBoard():
            yield (fact.panel, round(fact.short, 1))
        case InWall():
            yield ("wall", fact.wall)
