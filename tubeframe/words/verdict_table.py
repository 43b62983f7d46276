"""Verdicts as they are printed: a sentence in sum, and a row each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.structure.verdict import Code, Missing, More, Outcome, Unit
from tubeframe.words.verdicts import note_words, remedy_words, title, value_words, ways_words

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.geometry.units import Units
    from tubeframe.structure.verdict import Verdict


def verdict_row(verdict: Verdict, marks: Mapping[str, str], units: Units) -> list[str]:
    """Return a row of a printed table: outcome, what and where, value, limit, and the case with what helps."""
    where = ", ".join(marks.get(name, name) for name in verdict.where)
    carries = next((n.value for n in verdict.notes if n.what is More.CARRIES), None)
    value = limit = ""
    if carries is not None:
        value = f"passes up to {value_words(carries, Unit.FORCE, units)}"
    elif verdict.code is Code.FOLDS:
        value = ways_words(verdict)
    elif verdict.value is not None:
        value = value_words(verdict.value, verdict.unit, units)
        if verdict.bounds is not None:
            low, high = (value_words(b, verdict.unit, units) for b in verdict.bounds)
            value += f" ({low.split()[0]} to {high.split()[0]})"
    if carries is None and verdict.limit is not None and verdict.code is not Code.FOLDS:
        limit = f"{'≥' if verdict.over else '≤'} {value_words(verdict.limit, verdict.unit, units)}"
    notes = [note_words(n, units) for n in verdict.notes if n.what is not More.CARRIES]
    remedy = "" if verdict.missing is Missing.LOAD else remedy_words(verdict, units)
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
        said.append("No load was told: build again with yours, --load 200lb.")
    if not said:
        warned = any(v.outcome is Outcome.WARNING for v in verdicts)
        said = ["Nothing fails of what was looked at" + ("; read what is marked warning." if warned else ".")]
    return " ".join(said)
