"""Verdicts as they are printed: a sentence in sum, and a row each."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.geometry.units import Units
from tubeframe.structure.verdict import Code, Missing, More, Outcome, Unit
from tubeframe.words.verdicts import note_words, remedy_words, title, value_words, ways_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.structure.verdict import Verdict


def verdict_row(verdict: Verdict, marks: Mapping[str, str], units: Units) -> list[str]:
    """Return a row of a printed table: outcome, what and where, value, limit, and the case with what helps."""
    where = ", ".join(marks.get(name, name) for name in verdict.where)
    carries = next((n.value for n in verdict.notes if n.what is More.CARRIES), None)
    value = limit = ""
    if carries is not None:
        value = f"up to {value_words(carries, Unit.FORCE, units)}"
    elif verdict.code is Code.FOLDS:
        value = ways_words(verdict)
    elif verdict.value is not None:
        value = value_words(verdict.value, verdict.unit, units)
        if verdict.bounds is not None:
            low, high = verdict.bounds
            value += f" ({_bound(low, verdict.unit, units)} to {_bound(high, verdict.unit, units)})"
    if carries is None and verdict.limit is not None and verdict.code is not Code.FOLDS:
        limit = f"{'≥' if verdict.over else '≤'} {value_words(verdict.limit, verdict.unit, units)}"
    notes = [note_words(n, units) for n in verdict.notes if n.what is not More.CARRIES]
    remedy = "" if verdict.missing is Missing.LOAD else remedy_words(verdict, units)
    said = "; ".join(w for w in (verdict.case, *notes, remedy) if w)
    return [verdict.outcome.value, f"{title(verdict)}{f': {where}' if where else ''}", value, limit, said]


def _bound(value: float, unit: Unit, units: Units) -> str:
    """Print a bound without its unit."""
    return value_words(value, unit, units).split()[0] if math.isfinite(value) else "no end"


_THEN = {Code.TWIST: "then clamps start to turn", Code.SLIP: "then clamps start to slip"}
_EXAMPLE = {Units.INCH: "200lb", Units.MILLIMETRE: "90kg"}


def sum_words(verdicts: Sequence[Verdict], units: Units) -> str:
    """Say in a sentence or two how a frame stands: what fails, what it carries, and what nobody told."""
    if any(v.code is Code.FOLDS and v.outcome is Outcome.FAILS for v in verdicts):
        return "IT FOLDS: do not put anything on it; brace it first."
    said = [*_failing(verdicts), *carried_words(verdicts, units)]
    if any(v.missing is Missing.LOAD for v in verdicts):
        said.append(f"No load was told: build again with yours, --load {_EXAMPLE[units]}.")
    if said:
        return " ".join(said)
    warned = any(v.outcome is Outcome.WARNING for v in verdicts)
    return "Nothing fails of what was looked at" + ("; read what is marked warning." if warned else ".")


def carried_words(verdicts: Sequence[Verdict], units: Units) -> Iterator[str]:
    """Say what it carries where nobody told what it has to: what gives first, and from where on it sags too much."""
    carries = [(n.value, v) for v in verdicts for n in v.notes if n.what is More.CARRIES]
    hard = [(value, v) for value, v in carries if v.code is not Code.SAG]
    if hard:
        load, verdict = min(hard, key=lambda found: found[0])
        then = _THEN.get(verdict.code, f"then {title(verdict)} governs")
        yield f"It passes up to {value_words(load, Unit.FORCE, units)} ({verdict.case}); {then}."
    for load, verdict in carries:
        if verdict.code is Code.SAG:
            yield f"From {value_words(load, Unit.FORCE, units)} on it sags more than the limit ({verdict.case})."


def _failing(verdicts: Sequence[Verdict]) -> Iterator[str]:
    names = dict.fromkeys(title(v) for v in verdicts if v.outcome is Outcome.FAILS)
    if names:
        yield f"It fails by {', '.join(names)}."
