"""Faults: findings that one change should mend together, such as both posts of a pair or all tubes that one crosses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Severity
from tubeframe.joints.facts import (
    Apart,
    BodiesMeet,
    Fouling,
    InBoard,
    InWall,
    LooseEnd,
    NoFitting,
    OnBend,
    OnePoint,
    ShortOverhang,
    TooNear,
    TubeInBody,
)
from tubeframe.joints.repair.apply import outward

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator

    from tubeframe.errors import Fact, Finding
    from tubeframe.frame.member import MemberId
    from tubeframe.joints.repair.scene import Scene

_HUGE = 1e9


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Findings of one kind, the first of them leading; `common` is the tube that all of them name, if there is one."""

    findings: tuple[Finding, ...]
    common: MemberId | None = None

    @property
    def fact(self) -> Fact:
        """What was found first."""
        return self.findings[0].fact


def faults_of(scene: Scene) -> Iterator[Fault]:
    """Give the errors of a frame, what is most amiss first: that often mends the rest. Likes come before each alone."""
    errors = sorted((f for f in scene.found.findings if f.severity is Severity.ERROR), key=_urgency)
    bonds = [tuple(_bonds(f.fact, scene)) for f in errors]
    given: set[tuple[int, ...]] = set()
    for n, finding in enumerate(errors):
        groups = [(b, _likes(n, b, errors, bonds)) for b in bonds[n]]
        for bond, group in sorted(groups, key=lambda g: -len(g[1])):
            if len(group) > 1 and group not in given:
                given.add(group)
                common = bond if isinstance(bond, str) and bond in scene.members else None
                yield Fault(findings=tuple(errors[k] for k in group), common=common)  # type: ignore[arg-type]
        yield Fault(findings=(finding,))


def _urgency(finding: Finding) -> float:
    """Rank a finding: what has no joint at all, then what hangs on nothing, then by what is short [mm].

    Bodies that run into each other come last: more room on a tube mends most of them.
    """
    match finding.fact:
        case OnePoint() | NoFitting() | LooseEnd():
            return -2.0 * _HUGE
        case Apart():
            return -_HUGE
        case Fouling(least=least, distance=distance):
            return distance - least
        case TooNear() | OnBend() | ShortOverhang() | InBoard() | InWall() as fact:
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
            _, way = outward(scene.members[scene.members_of((fact.tube,))[0]], fact.end)
            yield (round(fact.short, 1), *(round(c, 3) for c in way))
        case TooNear():
            yield frozenset(scene.members_of(named.others(fact.tube)) for named in (fact.first, fact.second))
        case LooseEnd():
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
