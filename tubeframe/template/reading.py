"""What the user gave, turned into a template's parameters, and back into what a file holds."""

from __future__ import annotations

import dataclasses
import re
from enum import Enum
from typing import TYPE_CHECKING, Any, TypeVar

from tubeframe.errors import InputError, Problem, Problems, nearest_name, shown
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.units import INCH_MM, Units, format_length, format_range, parse_length
from tubeframe.template.basis import Basis, HasBases, split_basis
from tubeframe.template.describing import describe_range
from tubeframe.template.limits import check_limits
from tubeframe.template.parameters import Crates, ParameterKind, ParameterSpec, specs_of
from tubeframe.template.shop import Shop

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.catalog.workshop import Workshop

T = TypeVar("T")
_CRATES = re.compile(r"(?P<number>[0-9]{1,3})\s*of\s*(?P<width>[^x]+?)\s*x\s*(?P<depth>[^x]+?)\s*x\s*(?P<height>[^x]+)")
_MOST_LENGTH = 3000.0
_MOST_CRATES = 12
_MOST_LENGTHS = 50
_MOST_CHARACTERS = 200
_WHOLE = re.compile(r"-?[0-9]{1,9}")


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
    problems = Problems()
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
    less, specs, problems = values.bases(Shop(workshop=workshop)), specs_of(type(values)), Problems()
    own: dict[str, float] = {}
    for name, basis in other.items():
        field_name = name.replace("-", "_")
        own[field_name] = getattr(values, field_name) + less[field_name][basis]
        size = format_length(own[field_name], workshop.units)
        told = f"{shown(raw[name])} is {size} {specs[name].bases[0]}, which"
        try:
            _check_range(specs[name], own[field_name], workshop.units, told)
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


def _length_text(value: float, units: Units) -> str:
    scale, unit = (INCH_MM, "in") if units is Units.INCH else (1.0, "mm")
    return f"{round(value / scale, 9):.9f}".rstrip("0").rstrip(".") + unit


def _a_length(given: Any, workshop: Workshop) -> float:
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        message = f"{shown(given)} is not a length"
        raise ValueError(message)
    return parse_length(given, workshop.units)


def _read_length(spec: ParameterSpec, given: Any, workshop: Workshop) -> float:
    value = _a_length(given, workshop)
    _check_range(spec, value, workshop.units, shown(given))
    return value


def _read_count(spec: ParameterSpec, given: Any, workshop: Workshop) -> int:
    text = given.strip() if isinstance(given, str) else shown(given)
    if isinstance(given, bool) or not _WHOLE.fullmatch(text):
        message = f"{shown(given)} is not a whole number; the range is {describe_range(spec, workshop.units)}"
        raise ValueError(message)
    _check_range(spec, int(text), workshop.units, shown(given))
    return int(text)


def _read_choice(spec: ParameterSpec, given: Any, workshop: Workshop) -> Enum:
    del workshop
    known = {str(c.value): c for c in spec.choices or ()}
    if not isinstance(given, str) or given not in known:
        message = f"{shown(given)} is not one of the choices; {nearest_name(given, known)}"
        raise ValueError(message)
    return known[given]


def _read_lengths(spec: ParameterSpec, given: Any, workshop: Workshop) -> tuple[float, ...]:
    del spec
    rows = given if isinstance(given, list | tuple) else given.split(",") if isinstance(given, str) else [given]
    if len(rows) > _MOST_LENGTHS:
        message = f"{shown(given)} holds {len(rows):,} lengths; at most {_MOST_LENGTHS}"
        raise ValueError(message)
    found = tuple(_a_length(row, workshop) for row in rows)
    if not all(0.0 < v <= _MOST_LENGTH for v in found):
        message = (
            f"{shown(given)} is out of range; each is over 0 and up to {format_range(_MOST_LENGTH, workshop.units)}"
        )
        raise ValueError(message)
    return found


def _read_crates(spec: ParameterSpec, given: Any, workshop: Workshop) -> Crates:
    del spec
    asked = given.strip().lower() if isinstance(given, str) and len(given) <= _MOST_CHARACTERS else ""
    match = _CRATES.fullmatch(asked)
    if match is None:
        message = f"{shown(given)} is not a number of boxes; write for example '3 of 16in x 12in x 10in'"
        raise ValueError(message)
    width, depth, height = (_a_length(match[n], workshop) for n in ("width", "depth", "height"))
    found = Crates(number=int(match["number"]), width=width, depth=depth, height=height)
    if not (1 <= found.number <= _MOST_CRATES and all(0.0 < v <= _MOST_LENGTH for v in (width, depth, height))):
        message = f"{shown(given)} is out of range; 1 to {_MOST_CRATES} boxes, each side over 0"
        raise ValueError(message)
    return found


def _read_tube(spec: ParameterSpec, given: Any, workshop: Workshop) -> str:
    del spec
    known = [t.key for t in workshop.catalog.tubes]
    if not isinstance(given, str) or given not in known:
        message = f"{shown(given)} is not a tube size of the catalogue; {nearest_name(given, known)}"
        raise ValueError(message)
    return given


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
