"""What is bent alike, and which bends of a tube lie in one plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import SAME_TURN_DEG

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.geometry.path import Path

Run = tuple["Path", tuple["BendMark", ...]]


def bent_alike(sheets: Sequence[BendSheet]) -> tuple[tuple[BendSheet, ...], ...]:
    """Put marks together that are cut and bent alike, and differ in the places of their clamps only."""
    groups: dict[tuple[object, ...], list[BendSheet]] = {}
    for sheet in sheets:
        sizes = (
            sheet.rough_length,
            sheet.trim_a,
            *(v for m in sheet.bends for v in (m.at, m.angle, m.roll, m.radius)),
        )
        groups.setdefault((sheet.tube, *(round(v, 2) for v in sizes)), []).append(sheet)
    return tuple(tuple(g) for g in groups.values())


def flat_runs(path: Path, marks: Sequence[BendMark]) -> tuple[Run, ...]:
    """Part a tube into runs of bends that lie in one plane, each from the middle of a straight to the next's [mm]."""
    breaks = [n for n in range(1, len(marks)) if not _in_one_plane(marks[n - 1], marks[n])]
    bends = path.bends
    ends = [at + bend.length for at, bend in bends]
    cuts = [0.0, *((ends[n - 1] + bends[n][0]) / 2.0 for n in breaks), path.length]
    numbers = [0, *breaks, len(marks)]
    return tuple(
        (path.part(cuts[k], cuts[k + 1]), tuple(marks[numbers[k] : numbers[k + 1]])) for k in range(len(cuts) - 1)
    )


def _in_one_plane(one: BendMark, other: BendMark) -> bool:
    turn = abs(one.roll - other.roll) % 180.0
    return min(turn, 180.0 - turn) < SAME_TURN_DEG
