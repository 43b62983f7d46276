"""Verdicts in words: what was looked at, the value and its limit, what it rests on, and what only the user knows."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from tubeframe.geometry.units import INCH_MM, POUND_N, Units, format_exact
from tubeframe.structure.verdict import Code, Missing, More, Outcome, Unit, Verdict
from tubeframe.words.additions import knees_words
from tubeframe.words.limits import assumption_words
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.structure.verdict import Note

DISCLAIMER = (
    "Estimate from assumed steel strength and friction; not a rating. Joints were not tested. Do not use for climbing, "
    "overhead loads, sleeping lofts, guards or anything a code covers without a licensed engineer; follow local codes."
)
COVERED = (
    "The cover makes the wind load; the frame's own weight will not hold it down. Anchor it, and get local wind and "
    "snow values."
)
_TITLES = {
    Code.STRENGTH: "strength of the tubes",
    Code.SAG: "sag",
    Code.SWAY: "sway",
    Code.FOLDS: "folding",
    Code.BUCKLING: "buckling of the whole frame",
    Code.TIP: "tipping",
    Code.SLIP: "clamps slipping along a tube",
    Code.TWIST: "clamps turning on a tube",
    Code.CRUSH: "clamps crushing a tube",
    Code.WIND: "wind",
    Code.ANCHOR: "anchors in wind",
    Code.SNOW: "snow on the cover",
    Code.ROAD: "driving",
}
_NEEDED = {
    Missing.LOAD: "say what it has to carry: --load 200lb",
    Missing.WIND: "ask your building authority for the design wind speed: --wind 100mph; none is guessed",
    Missing.SNOW: "ask your building authority for the ground snow load: --snow 25psf; none is guessed",
    Missing.ANCHOR: "pull one of your anchors out with a scale, in your own wet soil: --pull-out 300lb",
}
_TRY = "tubeframe check --remedies tries what helps"
_METRIC = {Unit.FORCE: (1.0, "N"), Unit.MOMENT: (1e-3, "N m"), Unit.STRESS: (1.0, "MPa")}
_INCH = {
    Unit.FORCE: (1 / POUND_N, "lb"),
    Unit.MOMENT: (1 / POUND_N / INCH_MM, "in lb"),
    Unit.STRESS: (0.1450377, "ksi"),
}


def strength_note(*, covered: bool) -> str:
    """Say what every report of strength has to say; more of a frame with a cover."""
    return f"{DISCLAIMER} {COVERED}" if covered else DISCLAIMER


def title(verdict: Verdict) -> str:
    """Name what was looked at."""
    return _TITLES[verdict.code]


def short_title(verdict: Verdict) -> str:
    """Name what was looked at in one word, for a picture."""
    return verdict.code.value.removeprefix("V-")


def value_words(value: float, unit: Unit, units: Units) -> str:
    """Print a value with its unit."""
    if unit is Unit.LENGTH:
        return format_exact(value, units)
    if unit is Unit.COUNT:
        return f"{value:.0f}"
    if unit is Unit.SHARE:
        return f"{value:.2f}"
    factor, name = (_INCH if units is Units.INCH else _METRIC)[unit]
    shown = value * factor
    return f"{shown:.1f} {name}" if abs(shown) < 100.0 else f"{shown:.0f} {name}"


def verdict_told(verdict: Verdict, units: Units) -> Told:
    """Put a verdict into words."""
    where = " at ".join((_TITLES[verdict.code], *verdict.where[:1]))
    return Told(where=where, message=_message(verdict, units), remedy=remedy_words(verdict, units))


def remedy_words(verdict: Verdict, units: Units) -> str:
    """Say what only the user can find out; for what fails, where changes are tried before they are offered."""
    if verdict.missing:
        return _NEEDED[verdict.missing]
    if verdict.code is Code.FOLDS and verdict.outcome is not Outcome.OK:
        return _against_folding(verdict, units)
    if verdict.code is Code.ANCHOR and verdict.outcome is Outcome.FAILS and verdict.value is not None:
        return f"each anchor has to hold {value_words(verdict.value, verdict.unit, units)}: set more, or deeper ones"
    return _TRY if verdict.outcome is Outcome.FAILS else ""


def _against_folding(verdict: Verdict, units: Units) -> str:
    if verdict.knees:
        return f"solved again, this stops it: {knees_words(verdict.knees, units)}"
    if verdict.outcome is Outcome.WARNING:
        return ""
    return "no knee in a corner of its own stops it: give it another leg, fixed feet or a tie to a wall"


def verdict_document(verdict: Verdict, units: Units) -> dict[str, Any]:
    """Return a verdict as plain values; `value` and `limit` in `unit`, sentences in the user's units."""
    ratio = verdict.ratio
    return {
        "code": verdict.code.value,
        "title": title(verdict),
        "case": verdict.case,
        "where": list(verdict.where),
        "value": rounded(verdict.value),
        "limit": rounded(verdict.limit),
        "unit": verdict.unit.value,
        "ratio": rounded(ratio),
        "bounds": None if verdict.bounds is None else [rounded(b) for b in verdict.bounds],
        "verdict": verdict.outcome.value,
        "message": _message(verdict, units),
        "assumptions": [assumption_words(row, units) for row in verdict.assumptions],
        "remedy": remedy_words(verdict, units),
    }


def verdict_lines(verdicts: Sequence[Verdict], units: Units) -> list[str]:
    """Return verdicts as lines for a person, then what they rest on, each once."""
    wide = max((len(v.outcome.value) for v in verdicts), default=0)
    lines = []
    for v in verdicts:
        remedy = remedy_words(v, units)
        place = f" ({', '.join(v.where)})" if v.where else ""
        text = f"{v.outcome.value:{wide}}  {v.code.value:10}  {_TITLES[v.code]}{place}: {_message(v, units)}"
        lines.append(f"{text}; {remedy}" if remedy else text)
    rows = dict.fromkeys(assumption_words(row, units) for v in verdicts for row in v.assumptions)
    return [*lines, "rests on:", *(f"  {row}" for row in rows)]


def _message(verdict: Verdict, units: Units) -> str:
    parts = [_value(verdict, units)] if verdict.value is not None else []
    parts += [note_words(n, units) for n in verdict.notes]
    if verdict.case:
        parts.append(verdict.case)
    return ", ".join(p for p in parts if p) or "not known"


def _value(verdict: Verdict, units: Units) -> str:
    assert verdict.value is not None, "asked only where there is a value"
    if verdict.code is Code.FOLDS:
        return f"{ways_words(verdict)} to fold" + (" when every clamp turns freely" if verdict.notes else "")
    shown = value_words(verdict.value, verdict.unit, units)
    if verdict.limit is not None:
        shown += f" of {'at least' if verdict.over else 'at most'} {value_words(verdict.limit, verdict.unit, units)}"
    if verdict.bounds is not None:
        shown += f" ({bounds_words(verdict.bounds, verdict.unit, units)} with stiffer and softer clamps)"
    return shown


def bounds_words(bounds: tuple[float, float], unit: Unit, units: Units) -> str:
    """Print from where to where a value goes; one without end is told in words."""
    low, high = (value_words(b, unit, units) if math.isfinite(b) else "beyond all measure" for b in bounds)
    return f"{low} to {high}"


def ways_words(verdict: Verdict) -> str:
    """Count ways to fold."""
    count = round(verdict.value or 0.0)
    return "1 way" if count == 1 else f"{count} ways"


def note_words(note: Note, units: Units) -> str:
    """Say what goes with a value."""
    force = value_words(note.value, Unit.FORCE, units)
    return {
        More.FREQUENCY: f"swings {note.value:.1f} times a second empty",
        More.CARRIES: f"passes up to --load {force}",
        More.SLIDES: f"its feet slide first, at {force}",
        More.TIED: f"{note.value:.1f} times as high as its least base: tie it to a wall",
        More.CLAMPS_ALONE: "the clamps' stiffness alone holds it",
        More.UPLIFT: f"{force} of lift in all",
        More.UNPINNED: "a tube slipped over a stake without a pin holds nothing down",
        More.SECOND_ORDER: "",
        More.GIVES_WAY: "it gives way before that",
        More.TESTED: "by your own pull test",
        More.BOARD_APART: "the board's own stiffness is not counted on",
        More.TURNS: "the end turns a little there, and with it let go the rest still carries it",
    }[note.what]


def rounded(value: float | None) -> float | None:
    """Return six digits of a value; None for one without end, which JSON does not know."""
    return None if value is None or not math.isfinite(value) else float(f"{value:.6g}")
