"""What a picture of a moved frame shows, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import Units, format_exact
from tubeframe.structure.shape import Look
from tubeframe.structure.verdict import Unit
from tubeframe.words.verdicts import value_words

if TYPE_CHECKING:
    from tubeframe.structure.shape import Shape

DASHED_LINES = (
    "Dashed: as built. Drawn through: as it moves; wide what governs. In brackets: with stiffer and softer clamps."
)
_HOW = {
    Look.LOADED: "Under {force}, {case}, with its own weight",
    Look.PUSHED: "At a {case} of {force}",
    Look.WIND: "In the asked wind, {force} in all",
    Look.SNOW: "Under the asked snow, {force}",
}


def shape_words(shape: Shape, factor: float, units: Units) -> str:
    """Say what acts, how far it moves at most, and how many times as far it is drawn."""
    if shape.look is Look.FOLDING:
        return "It folds like this: nothing but the clamps' friction is in the way. How far is not drawn to scale."
    how = _HOW[shape.look].format(force=value_words(shape.force, Unit.FORCE, units), case=shape.case)
    drawn = "as far as it goes" if factor == 1.0 else f"{factor:g} times as far"
    return f"{how}: {format_exact(shape.largest, units)} at most, drawn {drawn}."
