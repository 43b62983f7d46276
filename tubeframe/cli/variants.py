"""A template's frame with parameters changed: laid out again and taken as far as its parts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.design import Stage, make_design
from tubeframe.errors import Severity, TubeframeError
from tubeframe.template.reading import read_values
from tubeframe.template.shop import Shop

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.design import Draft, Source
    from tubeframe.template.template import AnyTemplate


class Variants:
    """What a frame would be with other parameters; as it is stated it may have faults, but no variant has more."""

    def __init__(self, template: AnyTemplate, source: Source, workshop: Workshop) -> None:
        """Take the template, what the frame was laid out from, and the shop."""
        self._template, self._source, self._workshop = template, source, workshop
        self._faults = _faults(self._made({}))

    def draft(self, changes: Mapping[str, Any]) -> Draft | None:
        """Return the changed frame; None where it cannot be made, or gets a fault that it had not."""
        try:
            made = self._made(changes)
        except TubeframeError:
            return None
        return None if _faults(made) > self._faults else made

    def _made(self, changes: Mapping[str, Any]) -> Draft:
        raw = {**self._source.parameters, **changes}
        values = read_values(self._template.parameters, raw, self._workshop, {})
        frame = self._template.lay_out(values, Shop(workshop=self._workshop))
        return make_design(frame, self._workshop, self._source, until=Stage.PARTS)


def _faults(draft: Draft) -> int:
    return sum(f.severity is Severity.ERROR for f in draft.findings)
