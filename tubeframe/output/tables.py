"""The lists, for a spreadsheet."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from tubeframe.errors import printable
from tubeframe.geometry.units import INCH_MM, Units, format_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import BinaryIO

    from tubeframe.design import Design

Cell = str | int | float | None
_FORMULA = set("=+-@＝＋－＠")
"""What a formula begins with, also in full width."""


def write_pieces(design: Design, target: BinaryIO) -> None:
    """Write `pieces.csv`: a row a mark; lengths as a tape shows them and exact, stations from end A."""
    units = design.workshop.units
    rows = [
        [
            g.mark,
            g.quantity,
            g.first.size,
            format_length(g.first.cut_rounded, units),
            _plain(g.first.cut_rounded, units),
            _plain(g.first.cut_length, units),
            g.first.end_a.kind.value,
            g.first.end_b.kind.value,
            " ".join(str(_plain(s.from_a, units)) for s in g.first.stations),
            len(g.first.bends),
            " ".join(p.id for p in g.pieces),
        ]
        for g in design.parts.groups
    ]
    u = units.value
    head = ["mark", "quantity", "tube", "cut", f"cut_{u}", f"exact_{u}", "end_a", "end_b", f"stations_from_a_{u}"]
    _write([*head, "bends", "members"], rows, target)


def write_cut_plan(design: Design, target: BinaryIO) -> None:
    """Write `cut_plan.csv`: a row a cut, stick by stick, in the order of cutting."""
    units = design.workshop.units
    rows = [
        [
            number,
            s.tube,
            _plain(s.stock_length, units),
            "on hand" if s.on_hand else "buy",
            c.mark,
            format_length(c.length, units),
            _plain(c.length, units),
            _plain(s.offcut, units),
        ]
        for number, s in enumerate(design.fabrication.plan.sticks, start=1)
        for c in s.cuts
    ]
    u = units.value
    _write(["stick", "tube", f"stick_{u}", "from", "mark", "cut", f"cut_{u}", f"offcut_{u}"], rows, target)


def write_buying_list(design: Design, target: BinaryIO) -> None:
    """Write `buying_list.csv`."""
    rows = [[p.item, p.quantity, p.spare, p.unit, p.price] for p in design.fabrication.buying]
    _write(["item", "quantity", "spare", "unit", "price_each"], rows, target)


def _plain(length: float, units: Units) -> float:
    """Return a length [mm] as a bare number: to 0.001 in or 0.01 mm."""
    # first to what is more than rounding: the same length, reckoned otherwise, is printed the same
    return round(round(length / INCH_MM, 6), 3) if units is Units.INCH else round(round(length, 6), 2)


def _write(head: Sequence[str], rows: Iterable[Sequence[Cell]], target: BinaryIO) -> None:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n", quoting=csv.QUOTE_ALL)
    writer.writerow(head)
    writer.writerows([_harmless(c) for c in row] for row in rows)
    target.write(text.getvalue().encode())


def _harmless(cell: Cell) -> Cell:
    """Keep a text from being run as a formula by a spreadsheet, or from breaking out of its row."""
    if not isinstance(cell, str):
        return cell
    words = printable(cell)
    return f"'{words}" if words.lstrip()[:1] in _FORMULA else words
