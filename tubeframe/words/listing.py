"""Parts in number, by mark and kind; lengths in the user's units."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.assembly.diagonals import flat_diagonal
from tubeframe.geometry.units import FOOT_MM, INCH_MM, Units, format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.step import Step
    from tubeframe.design import Design
    from tubeframe.joints.joint import JointId, TubeId


class Lists:
    """Counts and names a design's parts."""

    def __init__(self, design: Design) -> None:
        """Look up marks and kinds."""
        self._design = design
        self._units = design.workshop.units
        self._marks = {p.id: p.mark for g in design.parts.groups for p in g.pieces}
        self._order = [g.mark for g in design.parts.groups]
        self._members = {p.id: p.member for p in design.parts.pieces}
        self._kinds = {j.id: j.kind for j in design.jointed.joints}
        self._flats = {s.id: s for s in design.assembly.flats}

    def length(self, value: float) -> str:
        """Print a length [mm]."""
        return format_length(value, self._units)

    @property
    def slack(self) -> str:
        """Print how far off flat a thing may lie; common practice, no source."""
        return '1/8"' if self._units is Units.INCH else "3 mm"

    def square(self, diagonal: float) -> str:
        """Print how far two diagonals may differ: 1/8 in in 4 ft of length [mm]; common practice, no source."""
        return self.length(max(1.0, diagonal / (4.0 * FOOT_MM)) * INCH_MM / 8.0)

    @property
    def key(self) -> str:
        """Name the hex key."""
        return f"{self._design.workshop.catalog.bolt.hex_key:g} mm hex key"

    def pieces(self, tubes: Sequence[TubeId]) -> str:
        """Count tubes by mark."""
        counted = Counter(self._marks[t] for t in tubes)
        return _listed({m: counted[m] for m in self._order if m in counted})

    def tubes_each(self, step: Step) -> str:
        """Count the tubes of sub-frames that are built alike: those of one, or of each where their marks differ."""
        members = {name: set(self._flats[name].members) for name in step.sub_frames}
        homes = {t: next(n for n, own in members.items() if self._members[t] in own) for t in step.tubes}
        kits = {name: self.pieces([t for t in step.tubes if homes[t] == name]) for name in step.sub_frames}
        if len(set(kits.values())) == 1:
            return f"{next(iter(kits.values()))}{' for each' if len(kits) > 1 else ''}"
        return ", ".join(f"{kit} for {name}" for name, kit in kits.items())

    def fittings(self, joints: Sequence[JointId], copies: int) -> str:
        """Count fittings by kind."""
        counted = Counter(self._kinds[j] for j in joints)
        shown = {k: -(-n // copies) for k, n in counted.items()}
        return ", ".join(f"{n} {plural(kind_word(kind), n)}" for kind, n in shown.items())

    def boards(self, step: Step) -> str:
        """Count boards by mark."""
        groups = self._design.parts.panel_groups
        return _listed(Counter(g.mark for g in groups for p in g.panels if p.id in step.panels))

    def frames(self, names: Sequence[str]) -> str:
        """Name sub-frames."""
        if len(names) > 2:
            return f"frames {names[0]} to {names[-1]}" if _run(names) else f"frames {', '.join(names)}"
        return f"frame {names[0]}" if len(names) == 1 else f"frames {' and '.join(names)}"

    def are_bent(self, step: Step) -> bool:
        """Whether all that a step lays out is bent."""
        return all(self._design.parts.piece(t).bends for t in step.tubes)

    def feet_down(self, step: Step) -> str:
        """Say where end A goes when tubes with feet are laid out."""
        fittings = (j.fitting for j in self._design.jointed.joints if j.id in set(step.joints))
        return ", end A at the feet" if any(f and f.kind.on_floor for f in fittings) else ""

    def flat_check(self, step: Step) -> str:
        """Say by which numbers a sub-frame is square."""
        name = step.sub_frames[0]
        steps = (s for s in self._design.assembly.steps if s.number <= step.number and name in s.sub_frames)
        here = {j for s in steps for j in s.joints}
        found = flat_diagonal(self._flats[name], self._design.parts, self._design.jointed, here)
        if found is None:
            return "All tubes lie flat"
        return f"Both diagonals {self.length(found.length)}, {points_words(found.at_clamps)}"


def points_words(at_clamps: bool) -> str:  # noqa: FBT001  both are said alike
    """Say between which points a diagonal is taken."""
    return (
        "crosswise, from where the tubes leave their end clamps"
        if at_clamps
        else "from cut end to cut end, the same edge on both"
    )


def kind_word(kind: str) -> str:
    """Name a kind of fitting as one reads it."""
    return kind.replace("-", " ")


def plural(word: str, number: int) -> str:
    """Put a word into the plural."""
    if number == 1:
        return word
    return word[:-4] + "feet" if word.endswith("foot") else word + ("es" if word.endswith("s") else "s")


def _run(names: Sequence[str]) -> bool:
    numbers = [int(n[1:]) for n in names]
    return numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def _listed(counts: dict[str, int] | Counter[str]) -> str:
    return ", ".join(f"{n} x {mark}" for mark, n in counts.items())
