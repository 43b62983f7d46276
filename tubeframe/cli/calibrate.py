"""`tubeframe fittings calibrate`: one's own fittings measured."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path  # noqa: TC003  the command line reads the annotation
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.catalog.calibration import far_face, setback_read
from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.measurable import counted_angle
from tubeframe.catalog.measured import BETWEEN, sizes_of
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.cli.options import as_length, check_day, write_back, wrong
from tubeframe.cli.say import say
from tubeframe.errors import InputError, Problem, nearest_name, shown
from tubeframe.geometry.tolerance import ANGLE_DEG
from tubeframe.geometry.units import INCH_MM, format_exact
from tubeframe.inputs.text_file import read_text
from tubeframe.inputs.workshop_text import check_only_changed, with_setback, workshop_values

if TYPE_CHECKING:
    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.catalog.measured import Sizes
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.geometry.units import Units

_MOST = 6.0 * INCH_MM
"""A longer setback is a misreading [mm]."""
_SQUARE = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamped:
    """What was clamped together: the kind, the branch's tube and the one beside it, and their angle [degree]."""

    kind: FittingKind
    branch: TubeSize
    run: TubeSize
    angle: float

    @property
    def sizes(self) -> Sizes:
        """The tubes as what was measured is filed."""
        tubes = {p.name: self.branch if p.role is PortRole.BRANCH else self.run for p in self.kind.ports}
        return sizes_of(self.kind, tubes)

    @property
    def angle_key(self) -> str | None:
        """The angle as it is written; None for a fitting that is square and nothing else."""
        is_square = not self.kind.swings and abs(self.angle - _SQUARE) <= ANGLE_DEG
        return None if is_square else f"{self.angle:.6f}".rstrip("0").rstrip(".")


def calibrate(
    kind: Annotated[str, typer.Argument(help="the kind of fitting, such as tee")],
    tube: Annotated[str, typer.Option(help="the tube size of the branch, such as emt-3/4")],
    offcut: Annotated[str, typer.Option(help="length of a square-cut offcut, clamped in as the branch")],
    measured: Annotated[
        str, typer.Option(help="along the branch, from the run's far outside face to the branch's far end")
    ],
    workshop: Annotated[Path, typer.Option(help="the workshop file that takes the result")],
    date: Annotated[str, typer.Option(help="day of the measurement, as 2026-05-01")],
    angle: Annotated[str | None, typer.Option(help="degrees between branch and run, for a fitting that swings")] = None,
    run: Annotated[str | None, typer.Option(help="the run's tube size, where it is another than the branch's")] = None,
) -> None:
    """Find a fitting's setback from two tape readings: s = M - B - D/(2 sin A), and write it into your workshop file.

    D is the run's outside diameter and A the angle between run and branch. On an elbow take the other tube as the run.
    """
    text = read_text(workshop)
    before = workshop_values(text, workshop)
    shop = workshop_from_document(before, str(workshop))
    made, lengths = _asked(shop.catalog, (kind, tube, run or tube, angle), (offcut, measured, date), shop.units)
    setback = setback_read(reading=lengths[1], offcut=lengths[0], outside=made.run.outside, angle=made.angle)
    if not 0.0 < setback < _MOST:
        message = f"gives a setback of {format_exact(setback, shop.units)}, which cannot be"
        remedy = "read from the run's FAR face to the branch's far end"
        raise InputError(Problem(where="", key="--measured", message=message, remedy=remedy))
    value = format_exact(setback, shop.units)
    place = ("fittings", kind, BETWEEN.join(made.sizes))
    changed = with_setback(text, place, made.angle_key, value, f"measured {date}")
    after = workshop_values(changed, workshop)
    check_only_changed(before, after, place, workshop)
    workshop_from_document(after, str(workshop))
    told = write_back(workshop, text, changed)
    beyond = format_exact(far_face(made.run.outside, made.angle), shop.units)
    say(f"s = M - B - D/(2 sin {made.angle:g}) = {measured} - {offcut} - {beyond} = {value}")
    at = f" at {made.angle_key} degrees" if made.angle_key else ""
    say(f'written into {workshop}: [fittings.{kind}."{place[2]}"] setback{at}:')
    say(*told)


def _asked(
    catalog: Catalog, names: tuple[str, str, str, str | None], readings: tuple[str, str, str], units: Units
) -> tuple[Clamped, tuple[float, float]]:
    """Read what was asked; InputError with all that is wrong."""
    kind, tube, run, angle = names
    problems: list[Problem] = []
    kinds = [k.key for k in catalog.kinds if k.ports_of(PortRole.BRANCH) and not k.is_sleeve]
    tubes = [t.key for t in catalog.tubes]
    if kind not in kinds:
        problems.append(wrong(kind, "no such kind with a branch", nearest_name(kind, kinds)))
    for option, name in dict.fromkeys((("--tube", tube), ("--run" if run != tube else "--tube", run))):
        if name not in tubes:
            problems.append(wrong(option, f"{shown(name)} is not known", nearest_name(name, tubes)))
    lengths = [
        as_length(option, text, units, problems)
        for option, text in zip(("--offcut", "--measured"), readings, strict=False)
    ]
    turned = _angle(catalog.kind(kind), angle, problems) if kind in kinds else 0.0
    check_day("--date", readings[2], problems)
    if problems:
        raise InputError(*problems)
    made = Clamped(kind=catalog.kind(kind), branch=catalog.tube(tube), run=catalog.tube(run), angle=turned)
    return made, (lengths[0], lengths[1])


def _angle(kind: FittingKind, given: str | None, problems: list[Problem]) -> float:
    """Return the angle of the branch [degree], as it was given or as the kind has it."""
    low, high = kind.angles_of(kind.ports_of(PortRole.BRANCH)[0])
    if given is None:
        if kind.swings:
            problems.append(wrong("--angle", f"at which angle? A {kind.key} swings", "give the degrees that you read"))
        return low
    try:
        angle = float(given)
    except ValueError:
        problems.append(wrong("--angle", f"{shown(given)} is not a number of degrees", "write for example 45"))
        return low
    turned = counted_angle(kind, angle)
    if not low - ANGLE_DEG <= turned <= high + ANGLE_DEG:
        span = f"{low:.0f} to {high:.0f}" if kind.swings else f"{low:.0f}"
        problems.append(wrong("--angle", f"no end stands at {given} degrees in a {kind.key}", f"its ends: {span}"))
    return turned
