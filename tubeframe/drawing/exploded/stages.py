"""What stands before each step, what it adds, and what lies on the floor for itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.step import PartKind, Work

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.assembly.plan import Assembly
    from tubeframe.assembly.step import Operation, Raising, Step
    from tubeframe.assembly.subframes import SubFrame
    from tubeframe.drawing.views.part_book import PartBook

Ids = frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A step, what is there before it, and what it adds.

    Of sub-frames that are built alike the first is shown: `flat` is that one while it lies on the floor, and
    `operations` are its own. `raised` has the parts of each sub-frame that is stood up.
    """

    step: Step
    standing: Ids
    operations: tuple[Operation, ...]
    raised: Mapping[str, Ids]
    flat: SubFrame | None = None

    @property
    def added(self) -> Ids:
        """What the operations add."""
        return frozenset(o.part for o in self.operations)

    @property
    def new(self) -> Ids:
        """What is added or stood up."""
        return self.added.union(*self.raised.values())

    def raising(self, part: str) -> Raising | None:
        """Return how a part is stood up; None when it is not."""
        return next((r for r in self.step.raises if part in self.raised[r.sub_frame]), None)


def stages(book: PartBook, assembly: Assembly) -> Iterator[Stage]:
    """Go through the steps."""
    homes = _Homes(book, assembly)
    built: dict[str, Ids] = dict.fromkeys(homes.flats, frozenset())
    standing: Ids = frozenset()
    for step in assembly.steps:
        if step.work is Work.FLAT:
            kits = homes.kits(step)
            shown = step.sub_frames[0]
            yield Stage(
                step=step, standing=built[shown], operations=tuple(kits[shown]), raised={}, flat=homes.flats[shown]
            )
            built |= {name: built[name] | {o.part for o in kit} for name, kit in kits.items()}
            continue
        raised = {r.sub_frame: built[r.sub_frame] for r in step.raises}
        stage = Stage(step=step, standing=standing, operations=step.operations, raised=raised)
        yield stage
        standing |= stage.new


class _Homes:
    """Which sub-frame each part is built in."""

    def __init__(self, book: PartBook, assembly: Assembly) -> None:
        self._book = book
        self.flats = {f.id: f for f in assembly.flats if f.id in assembly.built}
        self._home = {m: f.id for f in self.flats.values() for m in f.members}

    def kits(self, step: Step) -> dict[str, list[Operation]]:
        """Sort a step's operations by the sub-frames they build."""
        kits: dict[str, list[Operation]] = {name: [] for name in step.sub_frames}
        for operation in step.operations:
            kits[self._of(operation, step.sub_frames)].append(operation)
        return kits

    def _of(self, operation: Operation, names: Sequence[str]) -> str:
        tubes = [operation.part]
        if operation.kind is PartKind.JOINT:
            ports = {e.port for e in operation.into}
            tubes = [str(u.tube) for u in self._book.joint_of[operation.part].uses if u.port in ports]
        found = (self._home.get(self._book.piece_of[t].member) for t in tubes)
        return next(name for name in found if name is not None and name in names)
