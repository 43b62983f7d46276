"""`tubeframe bend`: stubs, offsets, saddles and kicks on their own, with no frame."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.cli.bend_request import BendRequest, answered
from tubeframe.cli.say import say, say_document
from tubeframe.fabrication.bending.document import bend_sheet_document
from tubeframe.fabrication.bending.saddles import saddle_of_four, saddle_of_three
from tubeframe.fabrication.bending.shapes import back_to_back, kick, offset, stub
from tubeframe.words.bend_answer import answer_lines

if TYPE_CHECKING:
    from collections.abc import Callable

    from tubeframe.fabrication.bending.laying import Laid

bend_app = typer.Typer(no_args_is_help=True, help="Where the marks go for one bend or a few, with no frame.")

Tube = Annotated[str | None, typer.Option("--tube", help="the tube size, such as emt-3/4; else your shop's")]
Shop = Annotated[Path | None, typer.Option("--workshop", help="the file of your shop: its bender, its units")]
UnitsOption = Annotated[str | None, typer.Option("--units", help="in or mm: what a bare number means, and is printed")]
Json = Annotated[bool, typer.Option("--json", help="print it as bending[] of design.json")]
Rise = Annotated[str, typer.Option("--rise", help="how far aside, middle to middle")]
Angle = Annotated[str, typer.Option("--angle", help="degrees of a bend")]
Before = Annotated[str, typer.Option("--before", help="from end A to the first mark")]
After = Annotated[str, typer.Option("--after", help="straight beyond the last bend")]


@bend_app.command("stub")
def stub_command(
    height: Annotated[str, typer.Option("--height", help="of the end, over the back of the other leg")],
    after: After = "12in",
    tube: Tube = None,
    workshop: Shop = None,
    units: UnitsOption = None,
    as_json: Json = False,
) -> None:
    """Turn an end up by 90 degrees."""
    asked = BendRequest(workshop, tube, units)
    lengths = asked.lengths({"--height": height, "--after": after})
    _tell(asked, as_json, f"stub of {height}", lambda: stub(asked.tool, asked.tube, *lengths))


@bend_app.command("back-to-back")
def back_to_back_command(
    height: Annotated[str, typer.Option("--height", help="of end A, over the back between the bends")],
    between: Annotated[str, typer.Option("--between", help="from back to back")],
    second: Annotated[str | None, typer.Option("--second", help="height of end B; else the same")] = None,
    tube: Tube = None,
    workshop: Shop = None,
    units: UnitsOption = None,
    as_json: Json = False,
) -> None:
    """Turn both ends up by 90 degrees, a distance from back to back apart."""
    asked = BendRequest(workshop, tube, units)
    one, other, across = asked.lengths({"--height": height, "--second": second or height, "--between": between})
    title = f"back to back {between}, {height} high"
    _tell(asked, as_json, title, lambda: back_to_back(asked.tool, asked.tube, (one, other), across))


@bend_app.command("offset")
def offset_command(
    rise: Rise,
    angle: Angle = "30",
    roll: Annotated[str, typer.Option("--roll", help="how far aside square to the rise: a rolling offset")] = "0",
    before: Before = "12in",
    after: After = "12in",
    tube: Tube = None,
    workshop: Shop = None,
    units: UnitsOption = None,
    as_json: Json = False,
) -> None:
    """Move a tube aside and on, by two bends."""
    asked = BendRequest(workshop, tube, units)
    up, first, last = asked.lengths({"--rise": rise, "--before": before, "--after": after})
    (aside,) = asked.lengths({"--roll": roll}, least=0.0)
    turn = asked.angle("--angle", angle, (5.0, 75.0))
    rolled = f" and {roll} aside" if aside else ""
    title = f"offset of {rise}{rolled} by {turn:g} degrees"
    _tell(asked, as_json, title, lambda: offset(asked.tool, asked.tube, up, turn, (first, last), aside))


@bend_app.command("saddle")
def saddle_command(
    rise: Rise,
    angle: Annotated[
        str | None, typer.Option("--angle", help="degrees: of the middle bend of three (45), of each of four (30)")
    ] = None,
    bends: Annotated[int, typer.Option("--bends", min=3, max=4, help="3, or 4 for a wide thing")] = 3,
    width: Annotated[str, typer.Option("--width", help="four bends: level on top, corner to corner")] = "12in",
    middle: Annotated[str, typer.Option("--middle", help="three bends: from end A to the thing's middle")] = "30in",
    before: Before = "12in",
    after: After = "12in",
    tube: Tube = None,
    workshop: Shop = None,
    units: UnitsOption = None,
    as_json: Json = False,
) -> None:
    """Go over a thing and down again, by three bends or four."""
    asked = BendRequest(workshop, tube, units)
    up, last = asked.lengths({"--rise": rise, "--after": after})
    turn = asked.angle("--angle", angle or ("45" if bends == 3 else "30"), (10.0, 75.0))
    title = f"saddle of {bends} bends over {rise}, {turn:g} degrees"
    if bends == 3:
        (at,) = asked.lengths({"--middle": middle})
        _tell(asked, as_json, title, lambda: saddle_of_three(asked.tool, asked.tube, up, turn, (at, last)))
        return
    first, wide = asked.lengths({"--before": before, "--width": width})
    _tell(asked, as_json, title, lambda: saddle_of_four(asked.tool, asked.tube, up, turn, wide, (first, last)))


@bend_app.command("kick")
def kick_command(
    rise: Rise,
    angle: Angle = "30",
    after: After = "12in",
    tube: Tube = None,
    workshop: Shop = None,
    units: UnitsOption = None,
    as_json: Json = False,
) -> None:
    """Lift end A off the line of the tube by one bend of less than 90 degrees."""
    asked = BendRequest(workshop, tube, units)
    up, last = asked.lengths({"--rise": rise, "--after": after})
    turn = asked.angle("--angle", angle, (5.0, 80.0))
    _tell(asked, as_json, f"kick of {rise} by {turn:g} degrees", lambda: kick(asked.tool, asked.tube, up, turn, last))


def _tell(asked: BendRequest, as_json: bool, title: str, lay_out: Callable[[], Laid]) -> None:
    laid = answered(asked, lay_out)
    if as_json:
        say_document(bend_sheet_document(laid.sheet))
        return
    about = f"{title}, {asked.tube_name}"
    say(*answer_lines(laid, about, asked.radius_words(), asked.units))
