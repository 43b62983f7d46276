"""A frame from a template, or why not: with the nearest value that can be built, tried before it is said."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

from tubeframe.errors import InputError
from tubeframe.geometry.units import INCH_MM, Units, format_length
from tubeframe.template.limits import limits_of
from tubeframe.template.parameters import ParameterKind, specs_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.errors import Problem
    from tubeframe.frame.frame import Frame
    from tubeframe.template.parameters import ParameterSpec
    from tubeframe.template.shop import Shop
    from tubeframe.template.template import AnyTemplate

_STEP = {Units.INCH: 0.5 * INCH_MM, Units.MILLIMETRE: 10.0}
_MOST_TRIED = 400


def laid_out(template: AnyTemplate, values: Any, shop: Shop) -> Frame:
    """Lay a template out.

    Raises:
        InputError: what it refuses; each problem names the nearest value of its parameter that can be built, if any.

    """
    try:
        return template.lay_out(values, shop)
    except InputError as refused:
        raise InputError(*(_with_nearest(p, template, values, shop) for p in refused.problems)) from refused


def _with_nearest(problem: Problem, template: AnyTemplate, values: Any, shop: Shop) -> Problem:
    spec = specs_of(template.parameters).get(problem.key)
    if spec is None or spec.range_in(shop.units) is None:
        return problem
    field_name = problem.key.replace("-", "_")
    for value in _outward(getattr(values, field_name), spec, shop):
        changed = dataclasses.replace(values, **{field_name: value})
        least, most = limits_of(changed, shop).get(field_name, (value, value))
        if least <= value <= most and _builds(template, changed, shop):
            shown = format_length(value, shop.units) if spec.kind is ParameterKind.LENGTH else str(value)
            remedy = "; ".join(filter(None, (problem.remedy, f"the nearest that can be built is {shown}")))
            return dataclasses.replace(problem, remedy=remedy)
    return problem


def _outward(value: float | None, spec: ParameterSpec, shop: Shop) -> Iterator[float]:
    """Give the values of a range from one outward, a step at a time."""
    span = spec.range_in(shop.units)
    if span is None or value is None:
        return
    whole = spec.kind is ParameterKind.COUNT
    step = 1.0 if whole else _STEP[shop.units]
    first = round(value / step) * step
    for n in range(_MOST_TRIED // 2):
        for tried in dict.fromkeys((first - n * step, first + n * step)):
            if span.least <= tried <= span.most:
                yield int(tried) if whole else tried


def _builds(template: AnyTemplate, values: Any, shop: Shop) -> bool:
    try:
        template.lay_out(values, shop)
    except InputError:
        return False
    return True
