"""What `tubeframe build` does: read, design, write, tell. Loaded when a frame is built, not for `--help`."""

from __future__ import annotations

import os
from contextlib import nullcontext
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from rich.console import Console
from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn

from tubeframe.cli.asked import ASKED
from tubeframe.cli.other_sizes import other_sizes
from tubeframe.cli.request import Asked, read_request
from tubeframe.cli.say import say, say_document
from tubeframe.cli.summary import explain_lines, has_errors, summary_document, summary_lines
from tubeframe.cli.sweet_spots import sweet_spots
from tubeframe.cli.text_frame import TextFrame
from tubeframe.design import make_design, with_verdicts
from tubeframe.errors import InputError, Problem, Problems, TubeframeError, nearest_name, shown
from tubeframe.fabrication.make import with_other_sizes, with_sweet_spots
from tubeframe.inputs.folder import check_folder
from tubeframe.output.build_files import EVERYTHING, Format, needs_solids
from tubeframe.output.build_folder import Build
from tubeframe.output.second_process import SecondProcess

if TYPE_CHECKING:
    from collections.abc import Callable, Collection
    from contextlib import AbstractContextManager

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.design import Design
    from tubeframe.frame.frame import Frame
    from tubeframe.template.template import AnyTemplate

_SHOP_KEYS = ("units", "paper", "table", "projection", "hidden_lines", "dxf", *ASKED)


def build(template: AnyTemplate | TextFrame, values: dict[str, str], options: dict[str, Any]) -> None:
    """Build a frame: read, design, write, tell; nothing is written when anything is wrong."""
    folder: Path = options["out"] or Path(template.name)
    shop = {key: options[key] for key in _SHOP_KEYS if options[key] is not None}
    asked = Asked(
        template=template,
        values=values,
        parameters_file=options["parameters_file"],
        workshop_file=options["workshop_file"],
        shop=shop,
    )
    problems = Problems()
    formats = _checked(problems, lambda: _formats(options["only"]))
    _checked(problems, lambda: check_folder(folder, force=options["force"]))
    kept = _read_there(template, folder)
    if kept and options["repair"]:
        message, remedy = f"{kept[0]} in it is the text frame that is read", "name another folder, so that it stays"
        problems.append(Problem(where=str(folder), key="--out", message=message, remedy=remedy))
    request = _checked(problems, lambda: read_request(asked))
    if problems or request is None or formats is None:
        raise InputError(*problems)
    formats = (*formats, Format.FRAME) if isinstance(template, TextFrame) else formats
    with _beside(formats) as beside, _progress(quiet=options["quiet"] or options["as_json"]) as bar:
        task = bar.add_task("design", total=None)
        frame, done = _repaired(request.frame, request.workshop) if options["repair"] else (request.frame, [])
        design = with_verdicts(make_design(frame, request.workshop, request.source), request.workshop.conditions)
        if options["sweet_spots"] and not isinstance(template, TextFrame):
            bar.update(task, description="sweet spots")
            made = with_sweet_spots(design.fabrication, sweet_spots(template, design))
            design = replace(design, fabrication=made)
        if not isinstance(template, TextFrame):
            made = with_other_sizes(design.fabrication, other_sizes(template, design))
            design = replace(design, fabrication=made)
        build = Build(design, formats, beside)
        design = build.design
        explanation = explain_lines(design, options["explain"]) if options["explain"] else []
        files = build.write(folder, lambda what: bar.update(task, description=what), kept)
    _tell(design, folder, files, options)
    words = [*done, *_offers(design), *explanation]
    if words and not options["quiet"] and not options["as_json"]:
        say(*words)
    if has_errors(design):
        raise typer.Exit(1)


def _read_there(template: AnyTemplate | TextFrame, folder: Path) -> tuple[str, ...]:
    """Return the name of a text frame that stands in the folder itself: it is the person's, and stays."""
    if isinstance(template, TextFrame) and os.path.realpath(template.path.parent) == os.path.realpath(folder):
        return (template.path.name,)
    return ()


def _beside(formats: Collection[Format]) -> AbstractContextManager[SecondProcess | None]:
    """Start a second process, where solids are asked for."""
    return SecondProcess() if needs_solids(formats) else nullcontext()


def _repaired(frame: Frame, workshop: Workshop) -> tuple[Frame, list[str]]:
    """Mend what can be mended; return what was done too, a line each."""
    from tubeframe.cli.mending import mend  # it takes long to load, and most frames need none

    return mend(frame, workshop)


def _offers(design: Design) -> list[str]:
    """List repairs, where joints are at fault."""
    if not design.jointed.findings:
        return []
    from tubeframe.cli.mending import offers

    return offers(design)


def _checked(problems: list[Problem], check: Callable[[], Any]) -> Any:
    """Run a check and gather its problems instead of stopping at them."""
    try:
        return check()
    except TubeframeError as error:
        problems += error.problems
        return None


def _formats(only: str | None) -> tuple[Format, ...]:
    if only is None:
        return EVERYTHING
    names = [name.strip().lower() for name in only.split(",") if name.strip()]
    unknown = [name for name in names if name not in list(Format)]
    if unknown or not names:
        known = list(Format)
        raise InputError(
            *(
                Problem(where="", key="--only", message=f"{shown(n)} is not a format", remedy=nearest_name(n, known))
                for n in unknown or [only]
            )
        )
    return tuple(f for f in Format if f.value in names)


def _progress(*, quiet: bool) -> Progress:
    console = Console(stderr=True)
    return Progress(
        SpinnerColumn(),
        TextColumn("{task.description}"),
        TimeElapsedColumn(),
        console=console,
        transient=True,
        disable=quiet or not console.is_terminal,
    )


def _tell(design: Design, folder: Path, files: tuple[str, ...], options: dict[str, Any]) -> None:
    if options["as_json"]:
        say_document(summary_document(design, folder, files))
    elif not options["quiet"]:
        say(*summary_lines(design, folder, files))
