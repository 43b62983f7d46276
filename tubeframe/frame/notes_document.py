"""What goes with a frame that a template laid out, from a text frame: things to buy, cautions, lines for the cover."""

from __future__ import annotations

from string import Formatter
from typing import TYPE_CHECKING

from tubeframe.errors import shown
from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.job import Job, JobKind
from tubeframe.frame.size import Side, Size, given

if TYPE_CHECKING:
    from collections.abc import Collection

    from tubeframe.catalog.user_table import UserTable
    from tubeframe.frame.builder import FrameBuilder

_MOST_SIZES = 8
_BEYOND = (Side.BEYOND_X, Side.BEYOND_Y)


def read_notes(table: UserTable, frame: FrameBuilder, known: Collection[str]) -> None:
    """Read `supply`, `caution` and `fact` into a frame; `known` are its tubes and boards."""
    for row in table.inner_rows("supply"):
        _supply(row, frame)
    for row in table.inner_rows("caution"):
        signal = row.one_of("signal", tuple(s.value for s in Signal), Signal.CAUTION.value)
        before = row.one_of("before", tuple(m.value for m in Moment), Moment.USE.value)
        text = row.text("text")
        row.close()
        frame.caution(Signal(signal), Moment(before), text)
    for row in table.inner_rows("fact"):
        _fact(row, frame, known)


def _supply(row: UserTable, frame: FrameBuilder) -> None:
    item, quantity, unit = row.text("item"), row.whole("quantity"), row.name("unit", "pcs")
    job = _job(row)
    row.close()
    frame.supply(item, quantity, unit, job)


def _job(row: UserTable) -> Job | None:
    """Read the work that something is bought for, with as many lengths as it is told with."""
    kind = row.one_of("job", tuple(k.value for k in JobKind), "")
    stated = row.take("job_lengths")
    if not kind:
        return None
    places = stated if isinstance(stated, list) else []
    lengths = [row.as_length(f"job_lengths[{n}]", v) for n, v in enumerate(places, start=1)]
    job = Job(kind=JobKind(kind), lengths=tuple(v for v in lengths if v is not None))
    if not job.is_told:
        row.wrong("job_lengths", f"{kind} is told with {job.wants} lengths", "write job_lengths = ['4 in']")
        return None
    return job


def _fact(row: UserTable, frame: FrameBuilder, known: Collection[str]) -> None:
    label, text = row.text("label"), row.text("text")
    sizes = [s for size in row.inner_rows("sizes", _MOST_SIZES) for s in _sizes(size, known)]
    row.close()
    if sizes and _places(text) != len(sizes):
        row.wrong("text", f"{shown(text)} has to have {len(sizes)} places for its sizes", "write {} for each of them")
    frame.fact(label, text, *sizes)


def _places(text: str) -> int:
    """Count the places {} of a text; -1 where braces stand otherwise."""
    try:
        fields = [f for _, *f in Formatter().parse(text) if f[0] is not None]
    except ValueError:
        return -1
    return len(fields) if all(f == ["", "", None] for f in fields) else -1


def _sizes(row: UserTable, known: Collection[str]) -> list[Size]:
    """Read the sizes that a line's words are made with."""
    found = []
    length = row.length(Side.GIVEN.value)
    if length is not None:
        found.append(given(length))
    for side in (s for s in Side if s is not Side.GIVEN):
        names = row.some_of(side.value, known, "tube or board")
        if names is not None and len(names) < (2 if side in _BEYOND else 1):
            row.wrong(side.value, "it needs more names", "name what stands out first, then what it stands past")
        elif names is not None:
            found.append(Size(side=side, names=tuple(names)))
    row.close()
    return found
