"""Parameters of a template: fields of a frozen class, each with range, default and a sentence.

The command line, the parameters file and the tests all read them from here.
"""

from __future__ import annotations

import dataclasses
import re
from dataclasses import dataclass, field
from enum import Enum, StrEnum
from typing import TYPE_CHECKING, Any, TypeVar, dataclass_transform

from tubeframe.errors import InputError, Problem, nearest_name
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.units import INCH_MM, Units, format_length, format_range, parse_length
from tubeframe.template.basis import Basis, HasBases, split_basis
from tubeframe.template.limits import check_limits
from tubeframe.template.shop import Shop

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.catalog.workshop import Workshop

T = TypeVar("T")
_KEY = "parameter"
_CRATES = re.compile(r"(?P<number>\d+)\s*of\s*(?P<width>[^x]+?)\s*x\s*(?P<depth>[^x]+?)\s*x\s*(?P<height>[^x]+)")
_MOST_LENGTH = 3000.0
_MOST_CRATES = 12


class YesNo(StrEnum):
    """Whether something is wanted."""

    YES = "yes"
    NO = "no"


@dataclass(frozen=True, slots=True, kw_only=True)
class Crates:
    """Boxes side by side: how many, and each one's width, depth and height [mm]."""

    number: int
    width: float
    depth: float
    height: float


class ParameterKind(StrEnum):
    """What a parameter's value is."""

    LENGTH = "length"
    COUNT = "whole number"
    CHOICE = "choice"
    LENGTHS = "lengths"
    CRATES = "boxes"
    TUBE = "tube size"


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """Least, default and most, in one system of units ([mm] for lengths)."""

    least: float
    default: float
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ParameterSpec:
    """All that is known of a parameter but its name and value.

    `left_out` says what happens when it is not given, where it has no default of its own; its value is then None.
    """

    kind: ParameterKind
    about: str
    inch: Range | None = None
    metric: Range | None = None
    choices: type[Enum] | None = None
    default: Any = None
    bases: tuple[Basis, ...] = ()
    left_out: str = ""

    def range_in(self, units: Units) -> Range | None:
        """Return the range in the user's units."""
        return self.inch if units is Units.INCH else self.metric

    def default_in(self, workshop: Workshop) -> Any:
        """Return the default value in a shop."""
        span = self.range_in(workshop.units)
        if self.kind is ParameterKind.TUBE:
            return self.default or workshop.tube
        if span is None or self.left_out:
            return self.default
        return int(span.default) if self.kind is ParameterKind.COUNT else span.default


def a_length(
    about: str,
    *,
    inch: tuple[float, float, float],
    metric: tuple[float, float, float],
    bases: tuple[Basis, ...] = (),
    left_out: str = "",
) -> Any:
    """Declare a length: (least, default, most) in inches and in millimetres; the value is in [mm].

    `bases` are what it can be given between, its own first; the class then has to be `HasBases`. With `left_out` there
    is no default, and it says what is done without; the value is None then.
    """
    return _declared(
        ParameterSpec(
            kind=ParameterKind.LENGTH,
            about=about,
            inch=_span(inch, INCH_MM),
            metric=_span(metric, 1.0),
            bases=bases,
            left_out=left_out,
        )
    )


def a_count(about: str, *, limits: tuple[int, int, int], left_out: str = "") -> Any:
    """Declare a whole number: (least, default, most); with `left_out` there is no default, and it says why."""
    span = _span(limits, 1.0)
    return _declared(ParameterSpec(kind=ParameterKind.COUNT, about=about, inch=span, metric=span, left_out=left_out))


def a_choice(about: str, *, default: Enum) -> Any:
    """Declare a choice among the members of an enumeration of texts."""
    return _declared(ParameterSpec(kind=ParameterKind.CHOICE, about=about, choices=type(default), default=default))


def some_lengths(about: str, *, left_out: str) -> Any:
    """Declare a list of lengths, as in `10in, 24in`; empty when left out."""
    return _declared(ParameterSpec(kind=ParameterKind.LENGTHS, about=about, default=(), left_out=left_out))


def boxes(about: str, *, left_out: str) -> Any:
    """Declare boxes that have to fit, as in `3 of 16in x 12in x 10in`; None when left out."""
    return _declared(ParameterSpec(kind=ParameterKind.CRATES, about=about, left_out=left_out))


def a_tube_size(about: str = "size of the tubes", *, own: str | None = None) -> Any:
    """Declare a tube size of the catalogue; the workshop's is the default, or the template's own."""
    return _declared(ParameterSpec(kind=ParameterKind.TUBE, about=about, default=own))


@dataclass_transform(
    frozen_default=True,
    kw_only_default=True,
    field_specifiers=(a_length, a_count, a_choice, a_tube_size, some_lengths, boxes),
)
def parameters(cls: type[T]) -> type[T]:
    """Make a frozen class of declared parameters."""
    return dataclass(frozen=True, slots=True, kw_only=True)(cls)


def specs_of(cls: type[Any]) -> dict[str, ParameterSpec]:
    """Return the parameters of such a class, in order, by their names with hyphens."""
    return {f.name.replace("_", "-"): f.metadata[_KEY] for f in dataclasses.fields(cls)}


def read_values(cls: type[T], raw: Mapping[str, Any], workshop: Workshop, where: Mapping[str, str]) -> T:
    """Turn what the user gave into parameters; what is missing takes its default.

    Args:
        cls: a class of parameters.
        raw: values by their names: texts, or numbers in the shop's units.
        workshop: gives units and defaults.
        where: for each name the place it was given, for messages.

    Raises:
        InputError: with every unknown name, unreadable value and value out of range.

    """
    specs = specs_of(cls)
    problems: list[Problem] = []
    values: dict[str, Any] = {}
    problems.extend(
        Problem(
            where=where.get(name, ""), key=name, message="there is no such parameter", remedy=nearest_name(name, specs)
        )
        for name in raw
        if name not in specs
    )
    other: dict[str, Basis] = {}
    for name, spec in specs.items():
        try:
            given, basis = split_basis(raw.get(name), spec.bases)
            if basis is not None and basis is not spec.bases[0]:
                other[name] = basis
            value = _read(spec, given, workshop, checked=name not in other)
        except ValueError as error:
            problems.append(Problem(where=where.get(name, ""), key=name, message=str(error)))
            continue
        values[name.replace("-", "_")] = value
    if problems:
        raise InputError(*problems)
    own = _on_own_bases(cls(**values), other, raw, workshop, where)
    check_limits(own, Shop(workshop=workshop), where)
    return own


def _read(spec: ParameterSpec, given: Any, workshop: Workshop, *, checked: bool) -> Any:
    """Read one value; a length on another basis is held against its range when it is on its own."""
    if given is None:
        return spec.default_in(workshop)
    return _READERS[spec.kind](spec, given, workshop) if checked else _a_length(given, workshop)


def _on_own_bases(
    values: T, other: Mapping[str, Basis], raw: Mapping[str, Any], workshop: Workshop, where: Mapping[str, str]
) -> T:
    """Turn lengths that were given on other bases into the parameters' own; InputError when out of range then."""
    if not other or not isinstance(values, HasBases):
        return values
    less, specs, problems = values.bases(Shop(workshop=workshop)), specs_of(type(values)), list[Problem]()
    own: dict[str, float] = {}
    for name, basis in other.items():
        field_name = name.replace("-", "_")
        own[field_name] = getattr(values, field_name) + less[field_name][basis]
        shown = f"'{raw[name]}' is {format_length(own[field_name], workshop.units)} {specs[name].bases[0]}, which"
        try:
            _check_range(specs[name], own[field_name], workshop.units, shown)
        except ValueError as error:
            problems.append(Problem(where=where.get(name, ""), key=name, message=str(error)))
    if problems:
        raise InputError(*problems)
    return dataclasses.replace(values, **own)  # type: ignore[type-var]  # a class of parameters is a dataclass


def written_values(values: Any, units: Units) -> dict[str, Any]:
    """Turn parameters into plain values that `read_values` reads back to the same; lengths as text with a unit."""
    plain: dict[str, Any] = {}
    for name, spec in specs_of(type(values)).items():
        value = getattr(values, name.replace("-", "_"))
        if value is None or value == ():
            continue
        if spec.kind is ParameterKind.LENGTH:
            plain[name] = _length_text(value, units)
        elif spec.kind is ParameterKind.LENGTHS:
            plain[name] = ", ".join(_length_text(v, units) for v in value)
        elif spec.kind is ParameterKind.CRATES:
            sides = (value.width, value.depth, value.height)
            plain[name] = f"{value.number} of {' x '.join(_length_text(v, units) for v in sides)}"
        else:
            plain[name] = value.value if isinstance(value, Enum) else value
    return plain


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


def _declared(spec: ParameterSpec) -> Any:
    return field(metadata={_KEY: spec})


def _span(values: tuple[float, float, float], factor: float) -> Range:
    least, default, most = values
    return Range(least=least * factor, default=default * factor, most=most * factor)


def _length_text(value: float, units: Units) -> str:
    scale, unit = (INCH_MM, "in") if units is Units.INCH else (1.0, "mm")
    return f"{round(value / scale, 9):.9f}".rstrip("0").rstrip(".") + unit


def _a_length(given: Any, workshop: Workshop) -> float:
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        message = f"{given!r} is not a length"
        raise ValueError(message)
    return parse_length(given, workshop.units)


def _read_length(spec: ParameterSpec, given: Any, workshop: Workshop) -> float:
    value = _a_length(given, workshop)
    _check_range(spec, value, workshop.units, f"'{given}'")
    return value


def _read_count(spec: ParameterSpec, given: Any, workshop: Workshop) -> int:
    text = str(given).strip()
    if isinstance(given, bool) or not text.lstrip("-").isdigit():
        message = f"'{given}' is not a whole number"
        raise ValueError(message)
    _check_range(spec, int(text), workshop.units, f"'{given}'")
    return int(text)


def _read_choice(spec: ParameterSpec, given: Any, workshop: Workshop) -> Enum:
    del workshop
    known = {str(c.value): c for c in spec.choices or ()}
    if str(given) not in known:
        message = f"'{given}' is not one of the choices; {nearest_name(str(given), known)}"
        raise ValueError(message)
    return known[str(given)]


def _read_lengths(spec: ParameterSpec, given: Any, workshop: Workshop) -> tuple[float, ...]:
    del spec
    rows = given if isinstance(given, list | tuple) else str(given).split(",")
    found = tuple(_a_length(row, workshop) for row in rows)
    if not all(0.0 < v <= _MOST_LENGTH for v in found):
        message = f"'{given}' is out of range; each is over 0 and up to {format_range(_MOST_LENGTH, workshop.units)}"
        raise ValueError(message)
    return found


def _read_crates(spec: ParameterSpec, given: Any, workshop: Workshop) -> Crates:
    del spec
    match = _CRATES.fullmatch(str(given).strip().lower())
    if match is None:
        message = f"'{given}' is not a number of boxes; write for example '3 of 16in x 12in x 10in'"
        raise ValueError(message)
    width, depth, height = (_a_length(match[n], workshop) for n in ("width", "depth", "height"))
    found = Crates(number=int(match["number"]), width=width, depth=depth, height=height)
    if not (1 <= found.number <= _MOST_CRATES and all(0.0 < v <= _MOST_LENGTH for v in (width, depth, height))):
        message = f"'{given}' is out of range; 1 to {_MOST_CRATES} boxes, each side over 0"
        raise ValueError(message)
    return found


def _read_tube(spec: ParameterSpec, given: Any, workshop: Workshop) -> str:
    del spec
    known = [t.key for t in workshop.catalog.tubes]
    if given not in known:
        message = f"'{given}' is not a tube size of the catalogue; {nearest_name(str(given), known)}"
        raise ValueError(message)
    return str(given)


_READERS: dict[ParameterKind, Callable[[ParameterSpec, Any, Workshop], Any]] = {
    ParameterKind.LENGTH: _read_length,
    ParameterKind.COUNT: _read_count,
    ParameterKind.CHOICE: _read_choice,
    ParameterKind.TUBE: _read_tube,
    ParameterKind.LENGTHS: _read_lengths,
    ParameterKind.CRATES: _read_crates,
}


def _check_range(spec: ParameterSpec, value: float, units: Units, shown: str) -> None:
    """Refuse what is out of range in both systems of units: 1.2 m and 4 ft are meant to be the same limit."""
    spans = [s for s in (spec.inch, spec.metric) if s is not None]
    least, most = min(s.least for s in spans), max(s.most for s in spans)
    if not least - TINY <= value <= most + TINY:
        message = f"{shown} is out of range; the range is {describe_range(spec, units)}"
        raise ValueError(message)
