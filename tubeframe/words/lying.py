"""Frames on the floor in words: which side is up, and how they come off it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.lying import has_mouths_up, up_side

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.subframes import SubFrame
    from tubeframe.design import Design
    from tubeframe.words.listing import Lists

_LEVEL = 0.7
"""A frame whose plane's normal rises so steeply stays level [sine]."""


def mouths_words(design: Design, name: str) -> str:
    """Say so where open mouths of a frame on the floor face up."""
    flat = _flat(design, name)
    return ", open mouths up" if has_mouths_up(flat, design.jointed, _joints(design, name)) else ""


def stand_up_words(design: Design, lists: Lists, names: Sequence[str]) -> str:
    """Say how frames come off the floor: stood up, or turned over where they were built on their heads."""
    up = up_side(_flat(design, names[0]), design.jointed, _joints(design, names[0]))
    if abs(up.z) < _LEVEL:
        return f"Stand {lists.frames(names)} up"
    held = "it" if len(names) == 1 else "them"
    return f"{'Turn over' if up.z < 0.0 else 'Lift'} {lists.frames(names)} and hold {held}"


def _flat(design: Design, name: str) -> SubFrame:
    return next(f for f in design.assembly.flats if f.id == name)


def _joints(design: Design, name: str) -> set[str]:
    return {str(j) for s in design.assembly.steps if name in s.sub_frames for j in s.joints}
