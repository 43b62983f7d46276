"""What `tubeframe check` does: solve a frame, say what was found. Loaded when a frame is checked."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import typer

from tubeframe.cli.additions import additions
from tubeframe.cli.asked import ASKED
from tubeframe.cli.remedies import Trials
from tubeframe.cli.request import Asked, read_request
from tubeframe.cli.say import say, say_document
from tubeframe.cli.text_frame import TextFrame
from tubeframe.errors import InputError, Problem
from tubeframe.geometry.units import parse_load
from tubeframe.joints.resolve import jointed
from tubeframe.structure.verdict import Code, Outcome
from tubeframe.words.trials import trial_document, trial_lines
from tubeframe.words.verdicts import strength_note, verdict_document, verdict_lines

if TYPE_CHECKING:
    from tubeframe.catalog.conditions import Conditions
    from tubeframe.cli.request import Request
    from tubeframe.structure.trial import Trial
    from tubeframe.structure.verdict import Verdict
    from tubeframe.template.template import AnyTemplate


def check(template: AnyTemplate | TextFrame, values: dict[str, str], options: dict[str, Any]) -> None:
    """Solve a frame and say what was found; exit status 1 where it folds."""
    problems: list[Problem] = []
    shop = {key: options[key] for key in ("units", *ASKED) if options[key]}
    if options["design_for"]:
        shop["load"] = _load(options["design_for"], problems)
    asked = Asked(
        template=template,
        values=values,
        parameters_file=options["parameters_file"],
        workshop_file=options["workshop_file"],
        shop=shop,
    )
    try:
        request = read_request(asked)
    except InputError as error:
        raise InputError(*problems, *error.problems) from error
    if problems:
        raise InputError(*problems)
    conditions = request.workshop.conditions
    found = _verdicts(request, conditions)
    units = request.workshop.units
    note = strength_note(covered=request.frame.cover is not None)
    tried = _tried(template, request, conditions, found, options)
    if options["as_json"]:
        document = {"frame": request.frame.name, "verdicts": [verdict_document(v, units) for v in found]}
        document |= {"tried": [trial_document(t, units) for t in tried], "note": note}
        say_document(document)
    else:
        say(*verdict_lines(found, units), *trial_lines(tried, units), note)
    if any(v.code is Code.FOLDS and v.outcome is Outcome.FAILS for v in found):
        raise typer.Exit(1)


def _verdicts(request: Request, conditions: Conditions) -> tuple[Verdict, ...]:
    from tubeframe.structure.check import verdicts  # loads the solver

    return verdicts(request.frame, jointed(request.frame, request.workshop), request.workshop, conditions)


def _tried(
    template: AnyTemplate | TextFrame,
    request: Request,
    conditions: Conditions,
    found: tuple[Verdict, ...],
    options: dict[str, Any],
) -> tuple[Trial, ...]:
    """Try changes where they are asked for: of parameters where a template has them, and tubes added to any frame."""
    if not (options["remedies"] or options["design_for"]):
        return ()
    added = additions(request.frame, request.workshop, request.source, conditions, found)
    if isinstance(template, TextFrame):
        return added
    trials = Trials(template, request.source, request.workshop, conditions, found)
    return trials.cheapest_that_passes() if options["design_for"] else (*trials.one_by_one(), *added)


def _load(text: str, problems: list[Problem]) -> str:
    """Look whether a load to design for is one; what is not is told under its own option."""
    try:
        parse_load(text)
    except ValueError as error:
        problems.append(Problem(where="", key="--design-for", message=str(error)))
        return "1 N"
    return text
