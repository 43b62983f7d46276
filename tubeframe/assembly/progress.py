"""What lies on the floor and what stands, step after step."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.step import Work

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number
    from tubeframe.assembly.step import Operation, Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A step, its new parts, and how things are after it: each sub-frame as it is built, and what stands."""

    step: Step
    new: tuple[Number, ...]
    built: Mapping[str, Placed]
    placed: Placed


@dataclass(frozen=True, slots=True, kw_only=True)
class Homes:
    """Which sub-frame each tube is built in, by the tubes' numbers."""

    flats: Mapping[str, tuple[Number, ...]]
    home: Mapping[Number, str]

    def of(self, model: Model, operation: Operation) -> str:
        """Return the sub-frame that a part is built in: its own, or that of the tubes that a fitting goes onto."""
        number = model.number(operation.kind, operation.part)
        if model.is_tube(number):
            return self.home.get(number, "")
        if not model.is_joint(number):
            return ""
        ports = {e.port for e in operation.into}
        tubes = [f.tube for f in model.fit(number).faces if f.name in ports]
        return next((self.home[t] for t in tubes if t in self.home), "")


def homes_of(flats: Mapping[str, tuple[Number, ...]]) -> Homes:
    """Look up where each tube is built."""
    return Homes(flats=flats, home={t: name for name, tubes in flats.items() for t in tubes})


def numbers(model: Model, operations: Sequence[Operation]) -> tuple[Number, ...]:
    """Return the numbers of operations' parts."""
    return tuple(model.number(o.kind, o.part) for o in operations)


def moments(model: Model, homes: Homes, steps: Sequence[Step]) -> Iterator[Moment]:
    """Go through the steps."""
    built: dict[str, Placed] = dict.fromkeys(homes.flats, frozenset())
    placed: Placed = frozenset()
    for step in steps:
        new = numbers(model, step.operations)
        if step.work is Work.FLAT:
            for part, operation in zip(new, step.operations, strict=True):
                name = homes.of(model, operation)
                built[name] = built.get(name, frozenset()) | {part}
        else:
            placed |= frozenset(new).union(*(built.get(r.sub_frame, frozenset()) for r in step.raises))
        yield Moment(step=step, new=new, built=dict(built), placed=placed)
