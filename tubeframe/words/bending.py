"""Bends in words: how the bender is set on a mark, what is read and what is measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.marks import SetBy

if TYPE_CHECKING:
    from tubeframe.fabrication.bending.marks import BendMark

_SET_BY = {
    SetBy.ARROW: "arrow",
    SetBy.STAR: "star",
    SetBy.NOTCH: "notch",
    SetBy.FORM: "start of the form",
    SetBy.ROLLS: "start of the arc",
}


def degrees(angle: float) -> str:
    """Print an angle [degree] to a tenth, or whole."""
    return f"{round(angle, 1) + 0.0:g}°"


def turn_words(roll: float) -> str:
    """Print a turn of the tube [degree]."""
    return f"{round(roll) % 360}°"


def set_by_words(mark: BendMark) -> str:
    """Say which mark of the bender goes on a mark of the tube."""
    return _SET_BY[mark.set_by]


def hook_words(mark: BendMark) -> str:
    """Say which end the hook faces; nothing for what no hook holds."""
    return mark.hook.name if mark.set_by not in {SetBy.FORM, SetBy.ROLLS} else ""
