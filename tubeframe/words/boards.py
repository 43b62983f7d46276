"""Boards in words: what is laid on, which side up, and how it is held."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.fixings import PILOT, SCREWS, STRAP_PITCH, sold_length
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.units import Units, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.design import Design


def board_title(design: Design, boards: Sequence[str]) -> str:
    """Say what is laid on."""
    uses = list(dict.fromkeys(p.use for p in design.frame.panels if p.id in boards))
    if uses == [PanelUse.STRIP]:
        return "Lay strips on the rails"
    names = [{PanelUse.SLAT: "slats", PanelUse.SHELF: "shelves"}.get(u, "top") for u in uses]
    return f"Lay on the {' and the '.join(names)}"


def laying_words(design: Design, boards: Sequence[str]) -> Iterator[str]:
    """Give a sentence for laying, for the side that faces down, and for what holds boards."""
    chosen = [p for p in design.frame.panels if p.id in boards]
    if all(p.use is PanelUse.STRIP for p in chosen):
        yield from _strip_words(design, boards)
        return
    recessed = " recesses down," if any(p.pockets for p in chosen) else ""
    yield f"Lay {'it' if len(chosen) == 1 else 'them'} on,{recessed} even on all sides."
    held = [f for f in design.fabrication.fixings if f.board in boards]
    if not held:
        return
    units = design.workshop.units
    straps = sum(f.straps for f in held)
    screws = " or ".join(dict.fromkeys(sold_length(f.screw, units) for f in held))
    through = ", through the strips" if any(f.through_strips for f in held) else ""
    yield (
        f"From below{through}: {straps} two-hole straps round the tubes, about {format_length(STRAP_PITCH, units)} "
        f"apart, {SCREWS} No. 8 screws {screws} long in each; drill {pilot_words(units)} first, never through."
    )


def _strip_words(design: Design, strips: Sequence[str]) -> Iterator[str]:
    """Say which strips lie on which tubes, in turn from end A; the screws of what lies on them hold them."""
    marks = {p.id: g.mark for g in design.parts.panel_groups for p in g.panels}
    on: dict[str, list[tuple[float, str]]] = {}
    for bearing in (b for b in design.jointed.bearings if b.board in strips):
        on.setdefault(str(bearing.tube), []).append((bearing.start, marks[bearing.board]))
    rows: dict[str, None] = {}
    for piece in (p for p in design.parts.pieces if p.id in on):
        rows[f"{piece.mark}: {', '.join(mark for _, mark in sorted(on[piece.id]))}"] = None
    yield f"Lay the strips on the tubes, from end A on, clear of the fittings. {'; '.join(rows)}."


def pilot_words(units: Units) -> str:
    """Print the drill for the screws."""
    return '3/32"' if units is Units.INCH else f"{PILOT:g} mm"
