"""Faults: findings that one change should mend together, such as both posts of a pair or all tubes that one crosses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.member import MemberId
from tubeframe.joints.facts import Apart, BodiesMeet, Fouling, LooseEnd, OnePoint, TubeInBody
from tubeframe.joints.repair.bonds import Host, bonds, is_fault, shape, urgency
from tubeframe.joints.room_facts import EndInTube

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator

    from tubeframe.errors import Fact, Finding
    from tubeframe.joints.repair.scene import Scene


_FOLLOWING = (Apart, BodiesMeet, EndInTube, Fouling, OnePoint, TubeInBody)


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
    errors = _causes(scene)
    tied = [bonds(f.fact, scene) for f in errors]
    shapes = [shape(f.fact) for f in errors]
    given: set[tuple[int, ...]] = set()
    for n, finding in enumerate(errors):
        parts = _parts([k for k in range(len(errors)) if shapes[n] and shapes[k] == shapes[n]], errors, tied, scene)
        twins = tuple(k for ks, _ in parts for k in ks)
        if len(parts) > 1 and twins not in given:
            given.add(twins)
            yield Fault(findings=tuple(errors[k] for k in twins), parts=tuple(p for _, p in parts))
        groups = [(b, _likes(n, b, errors, tied)) for b in tied[n]]
        for bond, group in sorted(groups, key=lambda g: -len(g[1])):
            if len(group) > 1 and group not in given:
                given.add(group)
                yield _together(group, bond, errors, scene)
        yield Fault(findings=(finding,))


def _parts(
    twins: list[int], errors: list[Finding], tied: list[tuple[Hashable, ...]], scene: Scene
) -> list[tuple[tuple[int, ...], Fault]]:
    """Part findings that are alike into those that share something and those that do not."""
    left, found = list(twins), []
    while left:
        n = left[0]
        likes = [(b, tuple(k for k in _likes(n, b, errors, tied) if k in left)) for b in tied[n]]
        bond, group = max(likes, key=lambda g: len(g[1]), default=(None, (n,)))
        found.append((group, _together(group, bond, errors, scene)))
        left = [k for k in left if k not in group]
    return found


def _together(group: tuple[int, ...], bond: Hashable, errors: list[Finding], scene: Scene) -> Fault:
    name = bond.member if isinstance(bond, Host) else bond
    common = MemberId(name) if len(group) > 1 and isinstance(name, str) and name in scene.members else None
    return Fault(findings=tuple(errors[k] for k in group), common=common)


def _causes(scene: Scene) -> list[Finding]:
    """Return the errors by their urgency, without those that only follow from a loose end."""
    errors = [f for f in scene.found.findings if is_fault(f)]
    loose = {f.fact.member for f in errors if isinstance(f.fact, LooseEnd)}
    causes = [f for f in errors if not (isinstance(f.fact, _FOLLOWING) and loose & {*scene.members_of(f.subjects)})]
    return sorted(causes, key=lambda f: urgency(f.fact))


def _likes(n: int, bond: Hashable, errors: list[Finding], tied: list[tuple[Hashable, ...]]) -> tuple[int, ...]:
    kind = type(errors[n].fact)
    return tuple(k for k, e in enumerate(errors) if type(e.fact) is kind and bond in tied[k])
