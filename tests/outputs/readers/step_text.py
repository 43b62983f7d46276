"""Products, occurrences, placements, unit and colours of a STEP file, out of its plain text alone.

The entities and their attributes are those of ISO 10303-41, -42, -43, -44 and -46 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.outputs.readers.part21 import NOTHING, Exchange, Parameter, Record, Ref, Word, references
from tests.outputs.readers.placing import Placement, Vector, frame

if TYPE_CHECKING:
    from collections.abc import Mapping

Colour = tuple[float, float, float]

_SOLIDS = ("MANIFOLD_SOLID_BREP", "BREP_WITH_VOIDS")
_PREFIXES = {"KILO": 1e3, "DECI": 1e-1, "CENTI": 1e-2, "MILLI": 1e-3, "MICRO": 1e-6}
_PREDEFINED: Mapping[str, Colour] = {
    "black": (0.0, 0.0, 0.0),
    "red": (1.0, 0.0, 0.0),
    "green": (0.0, 1.0, 0.0),
    "blue": (0.0, 0.0, 1.0),
    "yellow": (1.0, 1.0, 0.0),
    "magenta": (1.0, 0.0, 1.0),
    "cyan": (0.0, 1.0, 1.0),
    "white": (1.0, 1.0, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FileName:
    """The header's FILE_NAME: who and what wrote the file, and when."""

    name: str
    time_stamp: str
    authors: tuple[str, ...]
    organizations: tuple[str, ...]
    preprocessor: str
    originating_system: str
    authorization: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Usage:
    """One NEXT_ASSEMBLY_USAGE_OCCURRENCE: an occurrence of a product in its parent product."""

    occurrence: str
    product: str
    parent: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Occurrence:
    """A product that has solids, where it stands in the whole assembly.

    Attributes:
        product: name of the product.
        path: occurrence names from the top down; empty for a product that is in no assembly.
        placement: from the product's own axes to those of the file, the origin in [mm].
        shapes: instance numbers of its shape representations.
        solids: instance numbers of its solids.
    """

    product: str
    path: tuple[str, ...]
    placement: Placement
    shapes: tuple[int, ...]
    solids: tuple[int, ...]


def file_name(exchange: Exchange) -> FileName:
    """The fields of FILE_NAME; `ValueError` where the header has none."""
    record = _header(exchange, "FILE_NAME")
    name, stamp, authors, organizations, preprocessor, system, authorization = record.parameters
    return FileName(
        name=_text(name),
        time_stamp=_text(stamp),
        authors=_texts(authors),
        organizations=_texts(organizations),
        preprocessor=_text(preprocessor),
        originating_system=_text(system),
        authorization=_text(authorization),
    )


def schemas(exchange: Exchange) -> tuple[str, ...]:
    """The names in FILE_SCHEMA."""
    return _texts(_header(exchange, "FILE_SCHEMA").parameters[0])


def length_unit_mm(exchange: Exchange) -> float:
    """The one unit of length of all shapes [mm]; `ValueError` where there is none, or more than one."""
    units = {
        target: _unit_mm(exchange, target)
        for _, context in exchange.all("GLOBAL_UNIT_ASSIGNED_CONTEXT")
        for target in references(context)
        if any(record.keyword == "LENGTH_UNIT" for record in exchange.instances[target])
    }
    sizes = sorted(set(units.values()))
    if len(sizes) != 1:
        msg = f"expected one unit of length, found {sizes or 'none'} [mm]"
        raise ValueError(msg)
    return sizes[0]


def _unit_mm(exchange: Exchange, number: int) -> float:
    keywords = [record.keyword for record in exchange.instances[number]]
    if "SI_UNIT" in keywords:
        prefix, name = exchange.record(number, "SI_UNIT").parameters
        if name != Word("METRE") or not isinstance(prefix, Word) or prefix.text not in {"$", *_PREFIXES}:
            msg = f"#{number} is not a length in metres"
            raise ValueError(msg)
        return round(1000.0 * _PREFIXES.get(prefix.text, 1.0), 9)
    factor = _ref(exchange.record(number, "CONVERSION_BASED_UNIT").parameters[1])
    amount, base = exchange.record(factor, "LENGTH_MEASURE_WITH_UNIT").parameters
    return _number(amount.parameters[0] if isinstance(amount, Record) else amount) * _unit_mm(exchange, _ref(base))


def product_names(exchange: Exchange) -> tuple[str, ...]:
    """Names of all products, in the order of the file."""
    return tuple(_text(record.parameters[1]) for _, record in exchange.all("PRODUCT"))


def usages(exchange: Exchange) -> tuple[Usage, ...]:
    """Every occurrence of one product in another, in the order of the file."""
    return tuple(
        Usage(
            occurrence=_text(record.parameters[1]),
            product=_product(exchange, _ref(record.parameters[4])),
            parent=_product(exchange, _ref(record.parameters[3])),
        )
        for _, record in exchange.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE")
    )


def solid_numbers(exchange: Exchange) -> tuple[int, ...]:
    """Instance numbers of all solids that are stated (each once, however often it is placed)."""
    return tuple(number for keyword in _SOLIDS for number, _ in exchange.all(keyword))


def colours(exchange: Exchange) -> Mapping[int, Colour]:
    """The surface colour of each styled item (a solid, a face, a representation) by its instance number."""
    found: dict[int, Colour] = {}
    for keyword in ("STYLED_ITEM", "OVER_RIDING_STYLED_ITEM", "CONTEXT_DEPENDENT_OVER_RIDING_STYLED_ITEM"):
        for _, record in exchange.all(keyword):
            colour = _first_colour(exchange, record.parameters[1])
            if colour is not None:
                found[_ref(record.parameters[2])] = colour
    return found


def _first_colour(exchange: Exchange, value: Parameter) -> Colour | None:
    for target in references(value):
        for record in exchange.instances[target]:
            if record.keyword == "COLOUR_RGB":
                red, green, blue = (_number(part) for part in record.parameters[1:])
                return (red, green, blue)
            if record.keyword == "DRAUGHTING_PRE_DEFINED_COLOUR":
                return _PREDEFINED[_text(record.parameters[0])]
            if record.keyword == "CURVE_STYLE":
                continue
            inner = _first_colour(exchange, record.parameters)
            if inner is not None:
                return inner
    return None


def occurrences(exchange: Exchange) -> tuple[Occurrence, ...]:
    """Every placed product that has solids, parents before children, in the order of the file.

    Raises:
        ValueError: an occurrence has no placement, a product contains itself, or a reference leads nowhere.
    """
    return _Walk(exchange).all()


class _Walk:
    """Tables for the walk down the assembly, made once from the whole file."""

    def __init__(self, exchange: Exchange) -> None:
        self._exchange = exchange
        self._scale = length_unit_mm(exchange)
        self._shapes = self._shapes_by_definition()
        self._placements = self._placements_by_usage()
        self._children: dict[int, list[tuple[int, Record]]] = {}
        for number, record in exchange.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE"):
            self._children.setdefault(_ref(record.parameters[3]), []).append((number, record))

    def all(self) -> tuple[Occurrence, ...]:
        placed = {_ref(record.parameters[4]) for children in self._children.values() for _, record in children}
        tops = [number for number, _ in self._exchange.all("PRODUCT_DEFINITION") if number not in placed]
        if not tops:
            msg = "no product stands at the top: they contain each other"
            raise ValueError(msg)
        found: list[Occurrence] = []
        for top in tops:
            self._visit(top, (), Placement(), (top,), found)
        return tuple(found)

    def _visit(
        self,
        definition: int,
        path: tuple[str, ...],
        placement: Placement,
        above: tuple[int, ...],
        found: list[Occurrence],
    ) -> None:
        solids = self._solids(definition)
        if solids:
            product, shapes = _product(self._exchange, definition), self._shapes[definition]
            found.append(Occurrence(product=product, path=path, placement=placement, shapes=shapes, solids=solids))
        for usage, record in self._children.get(definition, ()):
            child = _ref(record.parameters[4])
            if child in above:
                msg = f"product {_product(self._exchange, child)!r} contains itself"
                raise ValueError(msg)
            if usage not in self._placements:
                msg = f"occurrence {_text(record.parameters[1])!r} (#{usage}) has no placement"
                raise ValueError(msg)
            inner = placement.after(self._placements[usage])
            self._visit(child, (*path, _text(record.parameters[1])), inner, (*above, child), found)

    def _solids(self, definition: int) -> tuple[int, ...]:
        return tuple(
            target
            for shape in self._shapes.get(definition, ())
            for records in (self._exchange.instances[shape],)
            for target in references(records[0].parameters[1])
            if any(record.keyword in _SOLIDS for record in self._exchange.instances[target])
        )

    def _shapes_by_definition(self) -> dict[int, tuple[int, ...]]:
        """Shape representations of each product definition, with those that are stated to be the same shape."""
        same: dict[int, list[int]] = {}
        for _, record in self._exchange.all("SHAPE_REPRESENTATION_RELATIONSHIP"):
            if len(record.parameters) == 4:  # a simple instance: no transformation between the two
                one, two = _ref(record.parameters[2]), _ref(record.parameters[3])
                same.setdefault(one, []).append(two)
                same.setdefault(two, []).append(one)
        shapes: dict[int, tuple[int, ...]] = {}
        for _, record in self._exchange.all("SHAPE_DEFINITION_REPRESENTATION"):
            owner = self._defined(_ref(record.parameters[0]))
            shape = _ref(record.parameters[1])
            if any(part.keyword == "PRODUCT_DEFINITION" for part in self._exchange.instances[owner]):
                shapes[owner] = (*shapes.get(owner, ()), shape, *same.get(shape, ()))
        return shapes

    def _defined(self, shape: int) -> int:
        return _ref(self._exchange.record(shape, "PRODUCT_DEFINITION_SHAPE").parameters[2])

    def _placements_by_usage(self) -> dict[int, Placement]:
        placements: dict[int, Placement] = {}
        for _, record in self._exchange.all("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION"):
            relation, shape = _ref(record.parameters[0]), _ref(record.parameters[1])
            usage = self._defined(shape)
            if usage in placements:
                msg = f"occurrence #{usage} is placed twice"
                raise ValueError(msg)
            child = _ref(self._exchange.record(usage, "NEXT_ASSEMBLY_USAGE_OCCURRENCE").parameters[4])
            placements[usage] = self._placement(relation, child)
        return placements

    def _placement(self, relation: int, child: int) -> Placement:
        """From the child's axes to the parent's: the transformation takes the first item onto the second."""
        relating = _ref(self._exchange.record(relation, "REPRESENTATION_RELATIONSHIP").parameters[2])
        operator = self._exchange.record(relation, "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION").parameters[0]
        items = self._exchange.record(_ref(operator), "ITEM_DEFINED_TRANSFORMATION").parameters
        first, second = self._axes(_ref(items[2])), self._axes(_ref(items[3]))
        moved = second.after(first.undone())
        return moved if relating in self._shapes.get(child, ()) else moved.undone()

    def _axes(self, number: int) -> Placement:
        _, location, axis, reference = self._exchange.record(number, "AXIS2_PLACEMENT_3D").parameters
        x, y, z = self._triple(location, "CARTESIAN_POINT")
        up = (0.0, 0.0, 1.0) if axis == NOTHING else self._triple(axis, "DIRECTION")
        along = (1.0, 0.0, 0.0) if reference == NOTHING else self._triple(reference, "DIRECTION")
        return frame((x * self._scale, y * self._scale, z * self._scale), up, along)

    def _triple(self, value: Parameter, keyword: str) -> Vector:
        listed = self._exchange.record(_ref(value), keyword).parameters[1]
        if not isinstance(listed, tuple) or len(listed) != 3:
            msg = f"{keyword} without three numbers"
            raise ValueError(msg)
        return (_number(listed[0]), _number(listed[1]), _number(listed[2]))


def _product(exchange: Exchange, definition: int) -> str:
    formation = _ref(exchange.record(definition, "PRODUCT_DEFINITION").parameters[2])
    product = _ref(exchange.instances[formation][0].parameters[2])
    return _text(exchange.record(product, "PRODUCT").parameters[1])


def _header(exchange: Exchange, keyword: str) -> Record:
    if keyword not in exchange.header:
        msg = f"the header has no {keyword}"
        raise ValueError(msg)
    return exchange.header[keyword]


def _ref(value: Parameter) -> int:
    if not isinstance(value, Ref):
        msg = f"expected a reference, found {value!r}"
        raise ValueError(msg)
    return value.number


def _number(value: Parameter) -> float:
    if not isinstance(value, float | int):
        msg = f"expected a number, found {value!r}"
        raise ValueError(msg)
    return float(value)


def _text(value: Parameter) -> str:
    if value == NOTHING:
        return ""
    if not isinstance(value, str):
        msg = f"expected text, found {value!r}"
        raise ValueError(msg)
    return value


def _texts(value: Parameter) -> tuple[str, ...]:
    if not isinstance(value, tuple):
        msg = f"expected a list of texts, found {value!r}"
        raise ValueError(msg)
    return tuple(_text(part) for part in value)
