"""Bends in words: how the bender is set on a mark, what is read and what is measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.checks import Measured
from tubeframe.fabrication.bending.marks import SetBy
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.units import INCH_MM, Units, format_exact, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.fabrication.bending.checks import Check
    from tubeframe.fabrication.bending.forms import Form
    from tubeframe.fabrication.bending.marks import BendMark, BendTool
    from tubeframe.fabrication.bending.sheet import BendSheet

TRIAL_MARK = {Units.INCH: 6.0 * INCH_MM, Units.MILLIMETRE: 150.0}
"""Where a trial bend is marked [mm]."""

_SET_BY = {
    SetBy.ARROW: "arrow",
    SetBy.STAR: "star",
    SetBy.NOTCH: "notch",
    SetBy.FORM: "start of the form",
    SetBy.ROLLS: "start of the arc",
}


def mark_words(mark: BendMark) -> str:
    """Say beside a mark on a tube which bend it is, which end the hook faces, and how the tube is turned."""
    hook = f", hook {hook_words(mark)}" if hook_words(mark) else ""
    turn = f", turn {turn_words(mark.roll)}" if round(mark.roll) % 360 else ""
    return f"bend {mark.number}{hook}{turn}"


def degrees(angle: float) -> str:
    """Print an angle [degree] to a tenth, or whole."""
    return f"{round(angle, 1) + 0.0:g}°"


def turn_words(roll: float) -> str:
    """Print a turn of the tube [degree]."""
    return f"{round(roll) % 360}°"


def set_by_words(mark: BendMark) -> str:
    """Say which mark of the bender goes on a mark of the tube."""
    return _SET_BY[mark.set_by]


def hook_words(mark: BendMark) -> str:
    """Say which end the hook faces; nothing for what no hook holds."""
    return mark.hook.name if mark.set_by not in {SetBy.FORM, SetBy.ROLLS} else ""


def ways_words(units: Units) -> str:
    """Say what holds for every tube that is bent."""
    slack = '1/8"' if units is Units.INCH else "3 mm"
    return (
        "Bend first, trim after. Draw one straight line along the whole tube; keep it on top, or turned as the table "
        "says, the seam to the side. Mark the clamps before you bend. Make one, check it on its chalk lines, then the "
        f"others. On a flat floor no tip may lift by over {slack}: untwist it in the bender."
    )


def take_words(sheet: BendSheet, name: str, units: Units) -> str:
    """Say what is taken for one, and how the bender is set."""
    rough = format_length(sheet.rough_length, units)
    trims = f"trim {format_length(sheet.trim_a, units)} off A and {format_length(sheet.trim_b, units)} off B after"
    return f"Each {rough} of {name}, places from its rough end A; {trims}. {_set_words(sheet, units)}"


def _set_words(sheet: BendSheet, units: Units) -> str:
    """Say what goes on the marks, where it is the same for all."""
    used = dict.fromkeys((m.set_by, m.hook) for m in sheet.bends)
    said = []
    if any(by is SetBy.ARROW for by, _ in used):
        hooks = list(dict.fromkeys(m.hook.name for m in sheet.bends if m.set_by is SetBy.ARROW))
        facing = f", hook toward {hooks[0]}" if len(hooks) == 1 else ", hook as the table says"
        said.append(f"Arrow on the mark{facing}; radius {format_exact(sheet.tool.shoe, units)}.")
    for radius in dict.fromkeys(round(m.radius, 2) for m in sheet.bends if m.set_by is SetBy.FORM):
        form = format_exact(sheet.tool.spring.form_radius(radius), units)
        said.append(
            f"The arc of {format_exact(radius, units)} is pulled round a form of {form}, to the tube's middle: its "
            "board is in layout.dxf; the mark goes to where the form begins."
        )
    rolled = dict.fromkeys(round(m.radius, 2) for m in sheet.bends if m.set_by is SetBy.ROLLS)
    said += [f"The arc of {format_exact(r, units)} is rolled, from its mark on: have it done." for r in rolled]
    return " ".join(said)


def running_title(sheet: BendSheet) -> str:
    """Say over all running checks between which places they are, straight across."""
    return "Then A to next" if _all_from_a(sheet) else "Then across"


def running_words(sheet: BendSheet, mark: BendMark, units: Units) -> str:
    """Say what is measured when a bend is made; between which places, where that is not the same for all."""
    found = next((c for c in sheet.checks if c.measured is Measured.RUNNING and c.bend == mark.number), None)
    if found is None:
        return ""
    length = format_length(found.distance, units)
    if _all_from_a(sheet):
        return length
    if mark.hook is TubeEnd.A:
        return f"A-{mark.number + 1 if mark.number < len(sheet.bends) else 'B'} {length}"
    return f"B-{mark.number - 1 if mark.number > 1 else 'A'} {length}"


def _all_from_a(sheet: BendSheet) -> bool:
    return all(m.hook is TubeEnd.A for m in sheet.bends)


def chalk_words(sheet: BendSheet, units: Units) -> Iterator[str]:
    """Say what the finished piece measures, middle of tube to middle of tube."""
    found = _finished(sheet)

    def length(of: Measured) -> str:
        return format_length(found[of].distance, units)

    chord = f"Trimmed, A to B: {length(Measured.CHORD)}"
    yield f"{chord}; the tube is up to {length(Measured.RISE)} off that line." if sheet.is_flat else f"{chord}."
    if sheet.is_flat:
        yield f"B: {length(Measured.ALONG)} along A's straight, {length(Measured.ACROSS)} off it."


def slip_words(sheet: BendSheet, units: Units) -> Iterator[str]:
    """Say what a slip does to end B."""
    found = _finished(sheet)
    said = ((Measured.ANGLE_SLIP, "{} 10° short"), (Measured.TURN_SLIP, "{} turned 10° off the line"))
    slips = [
        f"bend {what.format(found[of].bend)} puts B {format_length(found[of].distance, units)} off"
        for of, what in said
        if of in found
    ]
    yield f"One slip: {'; '.join(slips)}."


def _finished(sheet: BendSheet) -> dict[Measured, Check]:
    return {c.measured: c for c in sheet.checks if c.measured is not Measured.RUNNING}


def turn_table_words() -> str:
    """Say how the turns of a tube that is bent in several planes are read."""
    return (
        "Bent in several planes: no outline of it is drawn. Turn the tube before a bend as its clock shows, looking "
        "along it from A to B: the hand points to the inside of the bend, the line on the tube is at 12."
    )


def trial_words(tool: BendTool, units: Units) -> Iterator[str]:
    """Say how a trial bend is made, what it should give, and where what it gives is put."""
    mark = TRIAL_MARK[units]
    at, stub = format_length(mark, units), format_length(mark + tool.take_up, units)
    assumed = " This radius is assumed." if tool.bender.assumed else ""
    yield f"On an offcut: mark {at} from its end; arrow on the mark, hook toward that end; pull to {_past(tool)}."
    yield f"Let go: 90° are left, the stub is {stub} high at its back.{assumed}"
    yield "If not: tubeframe bender calibrate, and build again."


def _past(tool: BendTool) -> str:
    return degrees(tool.reading(90.0, tool.shoe))


def bending_tools(sheets: Sequence[BendSheet], names: Mapping[str, str]) -> Iterator[str]:
    """List what tubes are bent with, by the names of their sizes; what is rolled is rolled elsewhere."""
    used = {by: dict.fromkeys(s.tube for s in sheets if any(m.set_by is by for m in s.bends)) for by in SetBy}
    yield from (f"bender for {names[tube]}" for tube in used[SetBy.ARROW])
    if used[SetBy.FORM]:
        yield "board for the form, as thick as the tube (layout.dxf), and screws"
    if sheets:
        yield "chalk line"


def form_words(form: Form, number: int, units: Units) -> tuple[str, ...]:
    """Say what a form is for, what its radii are, and how a tube is pulled round it."""
    bent, edge, left = (format_exact(v, units) for v in (form.bent_to, form.edge, form.radius))
    return (
        f"FORM {number}: for {', '.join(form.marks)}",
        f"Board's edge {edge}; the tube's middle on it {bent}; let go, {left} are left.",
        "Springback is calculated: bend one, lay it on its chalk lines, then plane or pack the edge.",
        "Screw board and stop to a bench or a wall. Hook the tube behind the stop, its mark where the form begins;",
        "walk it round in three passes. Stand clear of its free end: it springs back.",
    )
