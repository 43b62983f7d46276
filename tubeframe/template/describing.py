"""A parameter's range, bases and default, printed for a person."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import Units, format_range
from tubeframe.template.parameters import ParameterKind

if TYPE_CHECKING:
    from tubeframe.template.parameters import ParameterSpec

_EXAMPLES = {
    ParameterKind.LENGTHS: "lengths with commas between",
    ParameterKind.CRATES: "such as '3 of 16in x 12in x 10in'",
}


def describe_range(spec: ParameterSpec, units: Units) -> str:
    """Print a parameter's range for a person."""
    span = spec.range_in(units)
    if spec.kind is ParameterKind.TUBE:
        return "a key of the catalogue, such as emt-3/4"
    if spec.kind in _EXAMPLES:
        return _EXAMPLES[spec.kind]
    if span is None:
        return ", ".join(str(c.value) for c in spec.choices or ())
    if spec.kind is ParameterKind.LENGTH:
        return f"{format_range(span.least, units)} to {format_range(span.most, units)}"
    return f"{span.least:g} to {span.most:g}"


def describe_bases(spec: ParameterSpec) -> str:
    """Print which words may follow a length; nothing when it has but one basis."""
    return f"; say {', '.join(spec.bases)} after it, {spec.bases[0]} when left out" if spec.bases[1:] else ""


def describe_default(spec: ParameterSpec, units: Units) -> str:
    """Print a parameter's default for a person."""
    span = spec.range_in(units)
    if spec.left_out:
        return spec.left_out
    if spec.kind is ParameterKind.TUBE:
        return spec.default or "the workshop's"
    if span is None:
        return str(spec.default.value)
    return format_range(span.default, units) if spec.kind is ParameterKind.LENGTH else f"{span.default:g}"
