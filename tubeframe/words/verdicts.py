"""Verdicts in words: what was looked at, the value and its limit, what it rests on, and what only the user knows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.geometry.units import INCH_MM, POUND_N, Units, format_exact
from tubeframe.structure.verdict import Code, Missing, More, Outcome, Unit, Verdict
from tubeframe.words.limits import assumption_words
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.structure.trial import Trial
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
    Code.WIND: "wind on the cover",
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
    return Told(where=where, message=_message(verdict, units), remedy=remedy_words(verdict))


def remedy_words(verdict: Verdict) -> str:
    """Say what only the user can find out; for what fails, where changes are tried before they are offered."""
    if verdict.missing:
        return _NEEDED[verdict.missing]
    return _TRY if verdict.outcome is Outcome.FAILS else ""


def verdict_document(verdict: Verdict, units: Units) -> dict[str, Any]:
    """Return a verdict as plain values; `value` and `limit` in `unit`, sentences in the user's units."""
    ratio = verdict.ratio
    return {
        "code": verdict.code.value,
        "title": title(verdict),
        "case": verdict.case,
        "where": list(verdict.where),
        "value": _rounded(verdict.value),
        "limit": _rounded(verdict.limit),
        "unit": verdict.unit.value,
        "ratio": _rounded(ratio),
        "bounds": None if verdict.bounds is None else [_rounded(b) for b in verdict.bounds],
        "verdict": verdict.outcome.value,
        "message": _message(verdict, units),
        "assumptions": [assumption_words(row, units) for row in verdict.assumptions],
        "remedy": remedy_words(verdict),
    }


def verdict_lines(verdicts: Sequence[Verdict], units: Units) -> list[str]:
    """Return verdicts as lines for a person, then what they rest on, each once."""
    wide = max((len(v.outcome.value) for v in verdicts), default=0)
    lines = []
    for v in verdicts:
        remedy = remedy_words(v)
        place = f" ({', '.join(v.where)})" if v.where else ""
        text = f"{v.outcome.value:{wide}}  {v.code.value:10}  {_TITLES[v.code]}{place}: {_message(v, units)}"
        lines.append(f"{text}; {remedy}" if remedy else text)
    rows = dict.fromkeys(assumption_words(row, units) for v in verdicts for row in v.assumptions)
    return [*lines, "rests on:", *(f"  {row}" for row in rows)]


def verdict_row(verdict: Verdict, marks: Mapping[str, str], units: Units) -> list[str]:
    """Return a row of a printed table: outcome, what and where, value, limit, and the case with what helps."""
    where = ", ".join(f"{marks[name]} {name}" if name in marks else name for name in verdict.where)
    carries = next((n.value for n in verdict.notes if n.what is More.CARRIES), None)
    value = limit = ""
    if carries is not None:
        value = f"passes up to {value_words(carries, Unit.FORCE, units)}"
    elif verdict.code is Code.FOLDS:
        value = _ways(verdict)
    elif verdict.value is not None:
        value = value_words(verdict.value, verdict.unit, units)
        if verdict.bounds is not None:
            low, high = (value_words(b, verdict.unit, units) for b in verdict.bounds)
            value += f" ({low.split()[0]} to {high.split()[0]})"
    if carries is None and verdict.limit is not None and verdict.code is not Code.FOLDS:
        limit = f"at {'least' if verdict.over else 'most'} {value_words(verdict.limit, verdict.unit, units)}"
    notes = [_note(n, units) for n in verdict.notes if n.what is not More.CARRIES]
    remedy = "" if verdict.missing is Missing.LOAD else remedy_words(verdict)
    said = "; ".join(w for w in (verdict.case, *notes, remedy) if w)
    return [verdict.outcome.value, f"{title(verdict)}{f': {where}' if where else ''}", value, limit, said]


def sum_words(verdicts: Sequence[Verdict], units: Units) -> str:
    """Say in a sentence or two how a frame stands: what it carries, or what fails, and what nobody told."""
    fails = [v for v in verdicts if v.outcome is Outcome.FAILS]
    if any(v.code is Code.FOLDS for v in fails):
        return "IT FOLDS: do not put anything on it; brace it first."
    said = [f"It fails by {', '.join(dict.fromkeys(title(v) for v in fails))}."] if fails else []
    carries = [(n.value, v) for v in verdicts for n in v.notes if n.what is More.CARRIES]
    hard = [(value, v) for value, v in carries if v.code is not Code.SAG]
    if hard:
        load, verdict = min(hard, key=lambda found: found[0])
        said.append(
            f"It passes up to {value_words(load, Unit.FORCE, units)} ({verdict.case}); then {title(verdict)} governs."
        )
    said += [
        f"From {value_words(load, Unit.FORCE, units)} on it sags more than the limit ({v.case})."
        for load, v in carries
        if v.code is Code.SAG
    ]
    if any(v.missing is Missing.LOAD for v in verdicts):
        said.append("No load was told: tubeframe check with --load looks at yours.")
    if not said:
        warned = any(v.outcome is Outcome.WARNING for v in verdicts)
        said = ["Nothing fails of what was looked at" + ("; read what is marked warning." if warned else ".")]
    return " ".join(said)


def trial_document(trial: Trial) -> dict[str, Any]:
    """Return a trial as plain values."""
    worst = trial.worst
    return {
        "changes": dict(trial.changes),
        "sticks": trial.sticks,
        "governs": None if worst is None else worst.code.value,
        "ratio": None if worst is None else _rounded(worst.ratio),
        "passes": trial.passes,
        "chosen": trial.chosen,
    }


def trial_lines(trials: Sequence[Trial]) -> list[str]:
    """Return what was tried as lines, each with its cost in sticks and what governs."""
    lines = []
    for t in trials:
        what = ", ".join(f"--{name} {value}" for name, value in t.changes) or "as asked"
        governs = "nothing is used" if t.worst is None else f"{t.worst.code.value} at {_share(t.worst)} of its limit"
        sign = "takes it:" if t.chosen else "passes:  " if t.passes else "fails:   "
        lines.append(f"  {sign} {what}: {t.sticks} sticks, {governs}")
    return ["tried, each solved again:", *lines] if lines else []


def _share(verdict: Verdict) -> str:
    return "?" if verdict.ratio is None else f"{verdict.ratio:.2f}"


def _message(verdict: Verdict, units: Units) -> str:
    parts = [_value(verdict, units)] if verdict.value is not None else []
    parts += [_note(n, units) for n in verdict.notes]
    if verdict.case:
        parts.append(verdict.case)
    return ", ".join(p for p in parts if p) or "not known"


def _value(verdict: Verdict, units: Units) -> str:
    assert verdict.value is not None, "asked only where there is a value"
    if verdict.code is Code.FOLDS:
        return f"{_ways(verdict)} to fold" + (" when every clamp turns freely" if verdict.notes else "")
    shown = value_words(verdict.value, verdict.unit, units)
    if verdict.limit is not None:
        shown += f" of {'at least' if verdict.over else 'at most'} {value_words(verdict.limit, verdict.unit, units)}"
    if verdict.bounds is not None:
        low, high = (value_words(b, verdict.unit, units) for b in verdict.bounds)
        shown += f" ({low} to {high} with stiffer and softer clamps)"
    return shown


def _ways(verdict: Verdict) -> str:
    count = round(verdict.value or 0.0)
    return "1 way" if count == 1 else f"{count} ways"


def _note(note: Note, units: Units) -> str:
    force = value_words(note.value, Unit.FORCE, units)
    return {
        More.FREQUENCY: f"swings {note.value:.1f} times a second with its own weight alone",
        More.CARRIES: f"passes up to --load {force}",
        More.SLIDES: f"its feet slide first, at {force}",
        More.TIED: f"{note.value:.1f} times as high as its least base: tie it to a wall",
        More.CLAMPS_ALONE: "the clamps' stiffness alone holds it",
        More.UPLIFT: f"{force} of lift in all",
        More.UNPINNED: "a tube slipped over a stake without a pin holds nothing down",
        More.SECOND_ORDER: "",
        More.GIVES_WAY: "it gives way before that",
        More.TESTED: "by your own pull test",
        More.TURNS: "the end turns a little there, and with it let go the rest still carries it",
    }[note.what]


def _rounded(value: float | None) -> float | None:
    return None if value is None else float(f"{value:.6g}")
