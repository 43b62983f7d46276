"""`tubeframe bender`: one's own bender measured on a trial bend."""

from __future__ import annotations

from pathlib import Path  # noqa: TC003  the command line reads the annotation
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.catalog.bender_document import too_tight
from tubeframe.catalog.calibration import TrialBend
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.cli.options import as_angle, as_length, as_name, check_day, write_back, wrong
from tubeframe.cli.say import say
from tubeframe.errors import InputError
from tubeframe.geometry.units import FOOT_MM, format_exact
from tubeframe.inputs.bender_text import check_only_bender, with_bender
from tubeframe.inputs.text_file import read_text
from tubeframe.inputs.workshop_text import workshop_values

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Problem

bender_app = typer.Typer(no_args_is_help=True, help="Measure your own bender.")
_ANGLES = (60.0, 120.0)
_MOST = 3.0 * FOOT_MM
"""A larger radius off a hand bender is a misreading [mm]."""


@bender_app.callback()
def bender() -> None:
    """Measure your own bender."""


@bender_app.command()
def calibrate(
    tube: Annotated[str, typer.Option(help="the tube size, such as emt-3/4")],
    stub: Annotated[str, typer.Option(help="where the arrow was: from the end that the hook faced to its mark")],
    measured: Annotated[
        str, typer.Option(help="along the outside of the stub: from its end to a straightedge on the other leg's back")
    ],
    workshop: Annotated[Path, typer.Option(help="the workshop file that takes the result")],
    angle: Annotated[str, typer.Option(help="degrees that the bender was pulled to")] = "90",
    read: Annotated[str | None, typer.Option(help="degrees that are left when it is let go")] = None,
    date: Annotated[str | None, typer.Option(help="day of the trial bend, as 2026-05-01")] = None,
) -> None:
    """Find radius, take-up, gain and springback from one trial bend, and write them into your workshop file.

    r = (M - S) / tan(q/2) - D/2 for a stub of M, marked at S, that stands at q degrees. Pull it to 90.
    """
    text = read_text(workshop)
    before = workshop_values(text, workshop)
    shop = workshop_from_document(before, str(workshop))
    trial = _trial(shop, tube, (stub, measured, angle, read or angle, date))
    sizes = {"take_up": format_exact(trial.take_up, shop.units), "radius": format_exact(trial.radius, shop.units)}
    past = None if read is None else f"{trial.springback:.2f}"
    note = f"from a trial bend{f', {date}' if date else ''}"
    changed = with_bender(text, tube, sizes, past, note)
    after = workshop_values(changed, workshop)
    check_only_bender(before, after, tube, workshop)
    workshop_from_document(after, str(workshop))
    told = write_back(workshop, text, changed)
    opens = f"{past} degrees: pull to {90.0 + float(past):.1f} to be left with 90" if past else "give --read too"
    for line in (
        f"radius on the centreline  {sizes['radius']}",
        f"take-up                   {sizes['take_up']}",
        f"gain of a bend of 90      {format_exact(trial.gain, shop.units)}",
        f"springback                {opens}",
        f"written into {workshop}: [bender] of {tube}; check it with a second bend:",
        *told,
    ):
        say(line)


def _trial(shop: Workshop, tube: str, said: tuple[str, str, str, str, str | None]) -> TrialBend:
    """Read what was measured; InputError with all that is wrong."""
    problems: list[Problem] = []
    known = as_name("--tube", tube, [t.key for t in shop.catalog.tubes], problems)
    mark, stub = (
        as_length(o, v, shop.units, problems) for o, v in zip(("--stub", "--measured"), said[:2], strict=True)
    )
    asked, left = (as_angle(o, v, _ANGLES, problems) for o, v in zip(("--angle", "--read"), said[2:4], strict=True))
    if left > asked:
        message = f"{left:g} degrees is more than it was pulled to, {asked:g}"
        problems.append(wrong("--read", message, "a tube opens when it is let go, it does not close"))
    if said[4] is not None:
        check_day("--date", said[4], problems)
    if problems:
        raise InputError(*problems)
    outside = shop.catalog.tube(known).outside
    trial = TrialBend(outside=outside, mark=mark, stub=stub, asked=asked, left=left)
    radius = format_exact(trial.radius, shop.units)
    fault = too_tight(shop.catalog, known, trial.radius, shop.units)
    if fault is None and not outside / 2.0 < trial.radius < _MOST:
        fault = f"it gives a radius of {radius}, which cannot be"
    if fault is not None:
        remedy = "put the arrow on the mark, the hook toward the end you measure from, and measure again"
        raise InputError(wrong("--measured", fault, remedy))
    return trial
