"""A plan in whole numbers given back as sticks with named pieces in millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.carrying import MORE_PARTS, Car, carried_parts
from tubeframe.fabrication.cutting.plan import Cut, Stick
from tubeframe.fabrication.cutting.shop_cuts import Divided

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.fabrication.cutting.counting import Counted
    from tubeframe.fabrication.cutting.patterns import Pattern

Waiting = dict[int, list[Cut]]


def car_for(counted: Counted, limit: float | None) -> Car | None:
    """Count what fits the car: bought sticks longer than a limit [mm] travel in as few parts as may be."""
    if limit is None:
        return None
    grid, kerf = counted.grid, counted.kerf
    room = grid.down(limit) + kerf
    long = [s.bought and s.length > limit + 1e-6 for s in counted.stocks]
    return Car(
        limit=room,
        parts=tuple(
            -(-(grid.up(s.length) + kerf) // room) if far else 1 for s, far in zip(counted.stocks, long, strict=True)
        ),
        dead=tuple(
            grid.up(s.length) + kerf - t.capacity for s, t in zip(counted.stocks, counted.job.sticks, strict=True)
        ),
    )


def named_sticks(patterns: Sequence[Pattern], counted: Counted, car: Car | None) -> tuple[Divided, ...]:
    """Name the pieces of every stick; equal lengths of several marks go out in the order of the needs."""
    job = counted.job
    waiting: Waiting = {length: [] for length in job.lengths}
    for need in counted.needs:
        if need.quantity:
            waiting[counted.length_of(need)] += [Cut(mark=need.mark, length=need.length)] * need.quantity
    ordered = sorted(patterns, key=lambda p: (-counted.stocks[p.stick].length, tuple(-c for c in p.counts), p.stick))
    return tuple(d for p in ordered for _ in range(p.times) if (d := _divided(p, counted, car, waiting)) is not None)


def _divided(pattern: Pattern, counted: Counted, car: Car | None, waiting: Waiting) -> Divided | None:
    """Take a stick's pieces from those that wait, part by part; surplus is left out."""
    lengths = counted.job.lengths
    counts = tuple(min(c, len(waiting[w])) for c, w in zip(pattern.counts, lengths, strict=True))
    if not any(counts):
        return None
    parts = (car and carried_parts(counted.job, car, pattern.stick, counts, more=MORE_PARTS)) or (counts,)
    cuts = tuple(tuple(_taken(part, lengths, waiting)) for part in parts)
    stock, saw = counted.stocks[pattern.stick], counted.saw
    whole = tuple(c for part in cuts for c in part)
    left = stock.usable - sum(c.length for c in whole) - saw.kerf * len(whole)
    stick = Stick(
        tube=stock.tube,
        stock_length=stock.length,
        usable=stock.usable,
        on_hand=not stock.bought,
        price=stock.price,
        cuts=whole,
        kerf=saw.kerf,
        offcut=max(0.0, left),
    )
    return Divided(stick=stick, parts=cuts, dead=stock.length - stock.usable + saw.lost)


def _taken(counts: Sequence[int], lengths: Sequence[int], waiting: Waiting) -> Iterator[Cut]:
    for length, count in zip(lengths, counts, strict=True):
        for _ in range(count):
            yield waiting[length].pop(0)
