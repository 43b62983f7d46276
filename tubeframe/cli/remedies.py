"""Changes of a template's parameters that make a frame hold: each is laid out, solved and counted again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tubeframe.cli.variants import Variants
from tubeframe.errors import TubeframeError
from tubeframe.fabrication.tallying import tally_of
from tubeframe.structure.trial import Trial, governing, passes
from tubeframe.template.parameters import ParameterKind, ParameterSpec, specs_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.conditions import Conditions
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.design import Source
    from tubeframe.structure.verdict import Verdict
    from tubeframe.template.template import AnyTemplate

_MOST_ROUNDS = 3
_MOST_MORE = 2
_NEXT_SIZES = 2
Changes = tuple[tuple[str, str], ...]


class Trials:
    """Trials of one frame; what was tried once is kept."""

    def __init__(
        self,
        template: AnyTemplate,
        source: Source,
        workshop: Workshop,
        conditions: Conditions,
        found: tuple[Verdict, ...],
    ) -> None:
        """Take the template, what it was laid out from, the shop, what is asked, and the verdicts as it is."""
        self._source, self._workshop, self._conditions = source, workshop, conditions
        self._variants = Variants(template, source, workshop)
        self._specs = specs_of(template.parameters)
        self._known: dict[Changes, Trial | None] = {}
        self._found = found

    def one_by_one(self) -> tuple[Trial, ...]:
        """Return every single change that makes the governing verdict better, the cheapest first."""
        now = governing(self._found)
        least = (now.ratio if now else None) or 0.0
        tried = [t for c in self._alternatives(()) if (t := self._tried(c))]
        better = [t for t in tried if t.passes or (t.worst and (t.worst.ratio or 0.0) < least)]
        return tuple(sorted(better, key=lambda t: (not t.passes, t.sticks, (t.worst and t.worst.ratio) or 0.0)))

    def cheapest_that_passes(self) -> tuple[Trial, ...]:
        """Return all that was tried: single changes, then more on top of the best, until one passes."""
        base: Changes = ()
        shown = [t for t in [self._tried(())] if t]
        for _ in range(_MOST_ROUNDS):
            if any(t.passes for t in shown):
                break
            more = [t for c in self._alternatives(base) if (t := self._tried(c))]
            shown += more
            if not more:
                break
            base = min(more, key=lambda t: (t.worst and t.worst.ratio) or 0.0).changes
        passing = [t for t in shown if t.passes]
        best = min(passing, key=lambda t: (t.sticks, len(t.changes)), default=None)
        return tuple(replace(t, chosen=t is best) for t in shown)

    def _alternatives(self, base: Changes) -> Iterator[Changes]:
        """Give the base with one more parameter changed: larger tubes, other choices, more pieces."""
        for name, spec in self._specs.items():
            if name not in dict(base):
                yield from ((*base, (name, value)) for value in self._others(name, spec))

    def _others(self, name: str, spec: ParameterSpec) -> list[str]:
        now: Any = self._source.parameters.get(name)
        if spec.kind is ParameterKind.TUBE:
            tubes = self._workshop.catalog.tubes
            size = self._workshop.catalog.tube(str(now))
            family = now.split("-")[0]
            larger = [t for t in tubes if t.key.startswith(f"{family}-") and t.inertia > size.inertia]
            return [t.key for t in sorted(larger, key=lambda t: t.inertia)[:_NEXT_SIZES]]
        if spec.choices is not None:
            return [str(c.value) for c in spec.choices if str(c.value) != str(now)]
        if spec.kind is ParameterKind.COUNT and now is not None:
            return [str(int(now) + k) for k in range(1, _MOST_MORE + 1)]
        return []

    def _tried(self, changes: Changes) -> Trial | None:
        if changes not in self._known:
            try:
                self._known[changes] = self._solved(changes)
            except TubeframeError:
                self._known[changes] = None
        return self._known[changes]

    def _solved(self, changes: Changes) -> Trial | None:
        """Lay out and solve; None where it gets a fault that it had not."""
        from tubeframe.structure.check import verdicts  # loads the solver

        draft = self._variants.draft(dict(changes))
        if draft is None:
            return None
        found = verdicts(draft.frame, draft.jointed, self._workshop, self._conditions)
        sticks = tally_of(draft.parts, self._workshop).sticks
        return Trial(changes=changes, sticks=sticks, passes=passes(found), worst=governing(found))
