"""How far tubes that lie sag: under the chord between any two fittings on them, not only between neighbours.

A joist hangs on the rail that it is clamped to and holds nothing up, so that the rail sags from leg to leg.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.joints.joint import Tube, TubeId
    from tubeframe.structure.members import Spans
    from tubeframe.structure.solver.elements import Floats, Indices
    from tubeframe.structure.solver.solve import Answer
    from tubeframe.structure.stretches import Framed, Stretch

Ends = tuple["Indices", "Indices"]
"""The numbers of the first and the last element of each bar."""
SAG_FAILS = 4.0
"""Over so many times the allowed sag it fails; up to there it is in use still, and sags in plain sight (judgement)."""
_SLACK = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """The governing sag of a span [mm], and the span [mm]."""

    tube: TubeId
    sag: float
    span: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A tube, or straight tubes of one member end to end: places [mm], how far each goes up [mm], spans to look at."""

    tubes: tuple[tuple[TubeId, float], ...]
    places: Floats
    heights: Floats
    spans: tuple[tuple[float, float], ...]

    def tube_at(self, place: float) -> TubeId:
        """Return the tube that has a place [mm]."""
        return [t for t, start in self.tubes if start <= place + _SLACK][-1]


def deepest_sag(between: Spans, frame: Framed, answer: Answer, ends: Ends) -> Sag | None:
    """Return the span that sags most for its length; None where no tube lies."""
    worst = None
    for line in _lines(between, frame, answer, ends):
        for low, high in line.spans:
            inside = (line.places >= low - _SLACK) & (line.places <= high + _SLACK)
            if inside.sum() < 3:
                continue
            at, z = line.places[inside], line.heights[inside]
            under = z[0] + (z[-1] - z[0]) * (at - at[0]) / (at[-1] - at[0]) - z
            deepest = int(np.argmax(under))
            sag, length = float(under[deepest]), high - low
            if worst is None or sag / length > worst.sag / worst.span:
                worst = Sag(tube=line.tube_at(float(at[deepest])), sag=sag, span=length)
    return worst


def _lines(between: Spans, frame: Framed, answer: Answer, ends: Ends) -> Iterator[_Line]:
    """Give the lines along which something lies: straight members whole, of bent ones each tube."""
    members: dict[str, list[Tube]] = {}
    for tube in frame.tubes.values():
        members.setdefault(tube.member, []).append(tube)
    for tubes in members.values():
        if any(t.path.bends for t in tubes):
            yield from (_line([t], between, frame, answer, ends, whole=False) for t in tubes)
        elif all(s.lies for t in tubes for s in between[t.id]):
            yield _line(tubes, between, frame, answer, ends, whole=True)


def _line(tubes: Sequence[Tube], between: Spans, frame: Framed, answer: Answer, ends: Ends, *, whole: bool) -> _Line:
    """Read off how a line moves; of whole lines every pair of fittings is a span, else neighbours that lie."""
    named, places, heights = list[tuple["TubeId", float]](), list["Floats"](), list["Floats"]()
    start, stops, spans = 0.0, [0.0], list[tuple[float, float]]()
    for tube in tubes:
        at, up = _read(frame.of_tube[tube.id], answer, ends)
        first = 1 if places else 0
        places.append(at[first:] + start)
        heights.append(up[first:])
        named.append((tube.id, start))
        stops += [start + s.high for s in between[tube.id]]
        spans += [(start + s.low, start + s.high) for s in between[tube.id] if s.lies]
        start += tube.path.length
    return _Line(
        tubes=tuple(named),
        places=np.concatenate(places),
        heights=np.concatenate(heights),
        spans=tuple(combinations(stops, 2)) if whole else tuple(spans),
    )


def _read(stretches: Sequence[Stretch], answer: Answer, ends: Ends) -> tuple[Floats, Floats]:
    """Return places along a tube [mm], and how far each goes up [mm]."""
    first, last = ends
    places, numbers = list[float](), list[int]()
    dofs = answer.system.numbering.dofs
    for stretch in stretches:
        begin, end = int(first[stretch.bar]), int(last[stretch.bar]) + 1
        places += np.linspace(stretch.low, stretch.high, end - begin + 1)[bool(places) :].tolist()
        numbers += [*([] if numbers else [int(dofs[begin, 2])]), *dofs[begin:end, 8].tolist()]
    return np.array(places), answer.moves[numbers]
