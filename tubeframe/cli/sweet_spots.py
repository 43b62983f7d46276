"""Near values of a template's parameters that save a stick or money: each is laid out and counted again."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.cli.variants import Variants
from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.sweet_spots import SweetSpot, nearest_saving, saved
from tubeframe.fabrication.tallying import tally_of
from tubeframe.geometry.units import INCH_MM, Units, parse_length
from tubeframe.template.parameters import ParameterKind, ParameterSpec, specs_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.design import Design
    from tubeframe.fabrication.cutting.sweet_spots import Tally
    from tubeframe.template.template import AnyTemplate

STEP = {Units.INCH: INCH_MM / 8.0, Units.MILLIMETRE: 2.0}
_MOST_STEPS = 48
_MOST_OF_A_SIZE = 0.1
_MOST_COUNTS = 2


def sweet_spots(template: AnyTemplate, design: Design) -> Iterator[SweetSpot]:
    """Try every length and count of a template, up to a tenth of the length (6 in or 96 mm at most) or two pieces."""
    workshop = design.workshop
    plan = design.fabrication.plan
    variants = Variants(template, design.source, workshop)
    for name, spec in specs_of(template.parameters).items():
        trial = _Trial(variants, design, name, spec)
        spot = nearest_saving(trial.tally, trial.most)
        now = trial.tally(0)
        if spot is not None and now is not None:
            steps, then = spot
            saves, unit = saved(now, then, priced=plan.priced, currency=workshop.currency)
            yield SweetSpot(
                parameter=name,
                is_length=spec.kind is ParameterKind.LENGTH,
                start=trial.value,
                end=trial.at(steps),
                saves=saves,
                unit=unit,
                sticks=then.sticks,
            )


class _Trial:
    """One parameter of a design, changed by steps; what was counted once is kept."""

    def __init__(self, variants: Variants, design: Design, name: str, spec: ParameterSpec) -> None:
        self._variants, self._workshop, self._name = variants, design.workshop, name
        self._known: dict[int, Tally | None] = {}
        self.value, self.step, self.most = 0.0, 1.0, 0
        given: Any = design.source.parameters.get(name)
        if given is not None and spec.kind is ParameterKind.LENGTH:
            self.value, self.step = parse_length(given, design.workshop.units), STEP[design.workshop.units]
            self.most = min(_MOST_STEPS, int(self.value * _MOST_OF_A_SIZE / self.step))
        elif given is not None and spec.kind is ParameterKind.COUNT:
            self.value, self.most = float(given), _MOST_COUNTS
        self._is_length = spec.kind is ParameterKind.LENGTH

    def at(self, steps: int) -> float:
        """Return a changed value, a whole number of steps."""
        return (round(self.value / self.step) + steps) * self.step if steps else self.value

    def tally(self, steps: int) -> Tally | None:
        if steps not in self._known:
            self._known[steps] = self._counted(steps)
        return self._known[steps]

    def _counted(self, steps: int) -> Tally | None:
        """Lay the frame out and count; None where it cannot be made, or its sticks are not proved."""
        changed = self.at(steps)
        draft = self._variants.draft({self._name: f"{changed}mm" if self._is_length else round(changed)})
        try:
            return None if draft is None else tally_of(draft.parts, self._workshop)
        except PlanError:
            return None
