"""Parameters of a template: fields of a frozen class, each with range, default and a sentence.

The command line, the parameters file and the tests all read them from here.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass, field
from enum import Enum, StrEnum
from typing import TYPE_CHECKING, Any, TypeVar, dataclass_transform

from tubeframe.geometry.units import INCH_MM, Units

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.template.basis import Basis

T = TypeVar("T")
_KEY = "parameter"


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


def a_choice(about: str, *, default: Enum, left_out: str = "") -> Any:
    """Declare a choice among the members of an enumeration of texts.

    With `left_out` it has no default of its own, only a usual one: it says what is done without; the value is None.
    """
    own = None if left_out else default
    return _declared(
        ParameterSpec(kind=ParameterKind.CHOICE, about=about, choices=type(default), default=own, left_out=left_out)
    )


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


def _declared(spec: ParameterSpec) -> Any:
    return field(metadata={_KEY: spec})


def _span(values: tuple[float, float, float], factor: float) -> Range:
    least, default, most = values
    return Range(least=least * factor, default=default * factor, most=most * factor)
