"""Changes that were tried, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.structure.verdict import Outcome
from tubeframe.words.additions import addition_words
from tubeframe.words.verdicts import rounded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.geometry.units import Units
    from tubeframe.structure.trial import Trial
    from tubeframe.structure.verdict import Verdict


def trial_document(trial: Trial, units: Units) -> dict[str, Any]:
    """Return a trial as plain values; what is added in the user's units."""
    worst = trial.worst
    return {
        "changes": dict(trial.changes),
        "added": [addition_words(a, units) for a in trial.added],
        "sticks": trial.sticks,
        "governs": None if worst is None else worst.code.value,
        "ratio": None if worst is None else rounded(worst.ratio),
        "passes": trial.passes,
        "chosen": trial.chosen,
    }


def trial_lines(trials: Sequence[Trial], units: Units) -> list[str]:
    """Return what was tried as lines, each with its cost in sticks and what governs."""
    lines = []
    for t in trials:
        parts = [f"--{name} {value}" for name, value in t.changes] + [addition_words(a, units) for a in t.added]
        what = ", and ".join(parts) or "as asked"
        governs = "nothing is used" if t.worst is None else _governing(t.worst)
        sign = "takes it:" if t.chosen else "passes:  " if t.passes else "fails:   "
        lines.append(f"  {sign} {what}: {t.sticks} sticks, {governs}")
    return ["tried, each solved again:", *lines] if lines else []


def _governing(verdict: Verdict) -> str:
    share = "?" if verdict.ratio is None else f"{verdict.ratio:.2f}"
    warning = ", only a warning" if verdict.outcome is Outcome.WARNING else ""
    return f"{verdict.code.value} at {share} of its limit{warning}"
