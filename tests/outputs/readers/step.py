"""What a STEP file says: header, unit, products, where each is placed, colours, and the true size of every solid.

Names and placements come from the text alone (`part21`, `step_text`); volumes and boxes from arris (`kernel`), a
geometry kernel that shares nothing with the one that writes our files. It is given each solid once, in its product's
own axes, and moves it to every place that the text states: reading a thousand placed copies would take it minutes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.outputs.readers import kernel, part21, step_text
from tests.outputs.readers.placing import joined

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from tests.outputs.readers.kernel import Shapes
    from tests.outputs.readers.part21 import Exchange
    from tests.outputs.readers.placing import Box, Rows, Vector
    from tests.outputs.readers.step_text import Colour, FileName, Occurrence, Usage


@dataclass(frozen=True, slots=True, kw_only=True)
class StepFile:
    """A STEP file's own words.

    Attributes:
        schemas: names in FILE_SCHEMA.
        file_name: fields of FILE_NAME.
        length_unit_mm: the unit of all lengths [mm].
        products: product names, in the order of the file.
        usages: occurrences of a product in another, in the order of the file.
        placed: every product with solids, where it stands.
        solids: how many solids are stated (each once, however often placed).
        colours: distinct colours of solids (red, green, blue from 0 to 1), in the order of the file.
        uncoloured: products with a solid that has no colour.
        open_shells: how many shapes are shells instead of solids.
    """

    schemas: tuple[str, ...]
    file_name: FileName
    length_unit_mm: float
    products: tuple[str, ...]
    usages: tuple[Usage, ...]
    placed: tuple[Occurrence, ...]
    solids: int
    colours: tuple[Colour, ...]
    uncoloured: tuple[str, ...]
    open_shells: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPart:
    """A placed product with its true size.

    Attributes:
        product: product name.
        occurrence: name of the occurrence; the product's where it is in no assembly.
        path: occurrence names from the top down.
        rotation: rows of the rotation from the product's axes to the file's.
        origin: where the product's origin stands [mm].
        volume: of all its solids [mm3].
        box: least and greatest corner after placement [mm].
        solids: how many solids it has.
        mended: how many places of the file had to be mended to read it.
        colour: red, green, blue from 0 to 1, where its first solid has one.
    """

    product: str
    occurrence: str
    path: tuple[str, ...]
    rotation: Rows
    origin: Vector
    volume: float
    box: Box
    solids: int
    mended: int
    colour: Colour | None


def read(path: Path) -> StepFile:
    """Reads a STEP file's text.

    Raises:
        ValueError: the text breaks the grammar, a reference leads nowhere, an occurrence has no placement, or the file
            has no unit of length or more than one.
    """
    exchange = _whole(path)
    placed = step_text.occurrences(exchange)
    colours = step_text.colours(exchange)
    numbers = step_text.solid_numbers(exchange)
    return StepFile(
        schemas=step_text.schemas(exchange),
        file_name=step_text.file_name(exchange),
        length_unit_mm=step_text.length_unit_mm(exchange),
        products=step_text.product_names(exchange),
        usages=step_text.usages(exchange),
        placed=placed,
        solids=len(numbers),
        colours=tuple(dict.fromkeys(colours[number] for number in numbers if number in colours)),
        uncoloured=tuple(
            dict.fromkeys(one.product for one in placed if any(number not in colours for number in one.solids))
        ),
        open_shells=sum(1 for _ in exchange.all("SHELL_BASED_SURFACE_MODEL")),
    )


def solids(path: Path) -> tuple[PlacedPart, ...]:
    """Reads every placed part of a STEP file with its volume and box, in the order of `StepFile.placed`.

    Raises:
        ValueError: as for `read`; or the kernel refuses a solid.
    """
    exchange = _whole(path)
    placed = step_text.occurrences(exchange)
    shapes = kernel.read(exchange.only(shape for one in placed for shape in one.shapes))
    volumes = _volumes(shapes, placed)
    colours = step_text.colours(exchange)
    return tuple(
        PlacedPart(
            product=one.product,
            occurrence=one.path[-1] if one.path else one.product,
            path=one.path,
            rotation=one.placement.rows,
            origin=one.placement.origin,
            volume=sum(volumes[number] for number in one.solids),
            box=joined([shapes.box(number, one.placement) for number in one.solids]),
            solids=len(one.solids),
            mended=sum(shapes.mended(number) for number in one.solids),
            colour=colours.get(one.solids[0]),
        )
        for one in placed
    )


def _volumes(shapes: Shapes, placed: tuple[Occurrence, ...]) -> Mapping[int, float]:
    """Each solid's volume, found once: it takes long where faces meet in free curves."""
    volumes: dict[int, float] = {}
    for one in placed:
        for number in one.solids:
            if number not in volumes:
                try:
                    volumes[number] = shapes.volume(number)
                except ValueError as error:
                    msg = f"product {one.product!r}: {error}"
                    raise ValueError(msg) from error
    return volumes


def _whole(path: Path) -> Exchange:
    exchange = part21.read(path)
    dangling = exchange.dangling()
    if dangling:
        shown = ", ".join(f"#{one} -> #{other}" for one, other in dangling[:10])
        msg = f"{len(dangling)} references lead to nothing: {shown}"
        raise ValueError(msg)
    return exchange
