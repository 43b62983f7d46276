"""What a repair must not make worse."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import MEET_MM, PLANE_MM
from tubeframe.joints.facts import Apart, LooseEnd
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.bonds import is_fault, sort_of
from tubeframe.joints.room_facts import EndInTube

if TYPE_CHECKING:
    from collections.abc import Container, Hashable, Iterator, Mapping

    from tubeframe.errors import Fact, Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import MemberId
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

Key = tuple["type[Fact]", tuple[str, ...]]
"""A kind of fact, and what it names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Soundness:
    """Errors, tubes that are held together, tubes under boards, and how high feet and the lowest end are [mm]."""

    errors: Counter[Key]
    ties: frozenset[tuple[MemberId, MemberId]]
    carried: frozenset[tuple[str, MemberId]]
    feet: Mapping[tuple[MemberId, TubeEnd], float]
    lowest: float
    names: frozenset[MemberId]

    def has(self, *members: MemberId) -> bool:
        """Whether tubes are there."""
        return all(m in self.names for m in members)

    def is_kept_by(self, after: Soundness) -> bool:
        """Whether, errors apart, nothing is worse: nothing loose, no foot lifted, nothing deeper in the ground."""
        return (
            {t for t in self.ties if after.has(*t)} <= after.ties
            and {c for c in self.carried if after.has(c[1])} <= after.carried
            and after.lowest >= min(self.lowest, 0.0) - PLANE_MM
            and all(abs(z) <= max(abs(self.feet[f]), MEET_MM) for f, z in after.feet.items() if f in self.feet)
        )


def soundness(scene: Scene) -> Soundness:
    """Look at all that a repair has to keep."""
    return Soundness(
        errors=errors_of(scene.found.findings),
        ties=frozenset((name, t.other) for name, ties in scene.ties.items() for t in ties),
        carried=scene.carried | scene.sunk,
        feet=feet_of(scene.frame),
        names=frozenset(m.id for m in scene.frame.members),
        lowest=min(p.z for m in scene.frame.members for p in (m.path.start, m.path.end)),
    )


def feet_of(frame: Frame) -> dict[tuple[MemberId, TubeEnd], float]:
    """Return the height of every end that stands on the floor [mm]."""
    return {(m.id, end): outward(m, end)[0].z for m in frame.members for end in TubeEnd if end_kind(m, end).is_grounded}


def errors_of(findings: tuple[Finding, ...]) -> Counter[Key]:
    """Count errors, and feet that stand on an edge, by kind and by what they name."""
    return Counter(k for f in findings if is_fault(f) for k in _keys(f))


def brings_errors(before: tuple[Finding, ...], after: tuple[Finding, ...], standing: Container[Hashable] = ()) -> bool:
    """Whether there are errors that were not there before, other than of the sorts that stand elsewhere too."""
    new = errors_of(after) - errors_of(before)
    return any(sort_of(f.fact) not in standing for f in after if is_fault(f) and any(k in new for k in _keys(f)))


def uncovered(fault: Fault, scene: Scene) -> frozenset[Hashable]:
    """Return the sorts of errors that a repair may bring since they stand elsewhere: what a loose end has hidden."""
    if not isinstance(fault.fact, LooseEnd | EndInTube):
        return frozenset()
    return frozenset(s for f in scene.found.findings if is_fault(f) and (s := sort_of(f.fact)) is not None)


def is_mended(fault: Fault, before: Counter[Key], after: Counter[Key]) -> bool:
    """Whether every finding of a fault is gone; of tubes that stand apart, whether there are fewer."""
    gone = before - after
    wanted = Counter(k for f in fault.findings for k in _keys(f))
    enough = any if isinstance(fault.fact, Apart) else all
    return enough(gone[key] >= count for key, count in wanted.items())


def _keys(finding: Finding) -> Iterator[Key]:
    fact = finding.fact
    if isinstance(fact, Apart):
        yield from ((Apart, (tube,)) for tube in fact.tubes)
    else:
        yield type(fact), finding.subjects
