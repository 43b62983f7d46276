"""What is claimed of fittings' sizes: which are measured, and which are generic."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.fitting_count import FittingCount

MEASURE = "measure yours before you cut"


def claim(counts: Sequence[FittingCount]) -> str:
    """Say how many fittings there are, and that their sizes are generic where they are."""
    total = sum(c.quantity for c in counts)
    generic = [c for c in counts if c.generic]
    if not generic:
        return f"{total}, sizes as measured by you" if any(c.measured for c in counts) else str(total)
    if not any(c.measured for c in counts):
        return f"{total}, GENERIC sizes: {MEASURE}"
    return f"{total}; GENERIC sizes, {MEASURE}: {generic_words(counts)}"


def generic_words(counts: Sequence[FittingCount]) -> str:
    """Name the kinds and sizes whose lengths nobody measured, with the joints where only some of them are."""
    named = []
    for count in (c for c in counts if c.generic):
        some = f" ({joint_words(count.generic)})" if len(count.generic) < count.quantity else ""
        named.append(f"{count.kind} for {count.tubes}{some}")
    return "; ".join(named)


def measured_words(counts: Sequence[FittingCount]) -> str:
    """Say which lengths are the user's own, and in which joints; nothing when none is."""
    return "; ".join(
        f"{c.kind} for {c.tubes}: {_and(m.lengths)} ({joint_words(m.joints)})" for c in counts for m in c.measured
    )


def joint_words(joints: Sequence[str]) -> str:
    """Name joints: three or more in turn by the first and the last."""
    numbers = sorted(int(j.removeprefix("J")) for j in joints)
    runs = [[n for _, n in group] for _, group in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0])]
    told = [f"J{run[0]} to J{run[-1]}" if len(run) > 2 else ", ".join(f"J{n}" for n in run) for run in runs]
    return ", ".join(told)


def _and(keys: Sequence[str]) -> str:
    words = [key.replace("_", " ") for key in keys]
    return " and ".join([", ".join(words[:-1]), words[-1]] if words[1:] else words)
