"""What the user asks for, from the command line, a parameters file and a workshop file."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.cli.text_frame import TEXT_FRAME, TEXT_SUFFIX, TextFrame
from tubeframe.design import Source
from tubeframe.errors import InputError, Problem, Problems, TubeframeError, printable, shown
from tubeframe.frame.document import frame_from_document, frame_units
from tubeframe.frame.frame import Frame
from tubeframe.inputs.parameters_file import ParametersFile, read_parameters
from tubeframe.inputs.toml_text import read_toml
from tubeframe.inputs.workshop_text import read_workshop
from tubeframe.template.nearest import laid_out
from tubeframe.template.reading import read_values, written_values
from tubeframe.template.shop import Shop
from tubeframe.template.users_code import users_code

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.template.template import AnyTemplate


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was given on the command line."""

    template: AnyTemplate | TextFrame
    values: Mapping[str, str]
    parameters_file: Path | None
    workshop_file: Path | None
    shop: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """A frame to be built, in which shop, and what it came from."""

    frame: Frame
    workshop: Workshop
    source: Source


def read_request(asked: Asked) -> Request:
    """Put together what was asked; the command line rules over the parameters file, and that over the workshop.

    Raises:
        InputError: with all problems of all files and options at once.

    """
    problems = Problems()
    given = ParametersFile()
    if asked.parameters_file is not None:
        try:
            given = read_parameters(asked.parameters_file)
        except TubeframeError as error:
            problems += error.problems
    problems += _other_template(given, asked)
    document = _frame_document(asked, problems)
    shop = _shop_table(given, asked, problems)
    units = {} if document is None else {"units": frame_units(document)}
    workshop = _workshop({**units, **shop}, asked, problems)
    if isinstance(asked.template, TextFrame):
        return _text_request(asked.template, document, workshop, shop, problems)
    values = _values(asked.template, given, asked, workshop, problems)
    if problems:
        raise InputError(*problems)
    frame = _laid_out(asked.template, values, workshop)
    plain = written_values(values, workshop.units)
    own = printable(asked.template.file.name) if asked.template.file is not None else ""
    source = Source(template=asked.template.name, parameters=plain, shop=shop, file=own)
    return Request(frame=frame, workshop=workshop, source=source)


def _laid_out(template: AnyTemplate, values: Any, workshop: Workshop) -> Frame:
    with users_code(template.file):
        frame: object = laid_out(template, values, Shop(workshop=workshop))
        if not isinstance(frame, Frame):
            message = f"`lay_out` gives {type(frame).__name__}, not a frame: end it with `return frame.build()`"
            raise InputError(Problem(where=str(template.file or template.name), key="", message=message))
    return frame


def _text_request(
    text: TextFrame,
    document: Mapping[str, Any] | None,
    workshop: Workshop,
    shop: dict[str, Any],
    problems: list[Problem],
) -> Request:
    try:
        frame = None if document is None else frame_from_document(document, workshop, str(text.path))
    except TubeframeError as error:
        problems += error.problems
        frame = None
    if problems or frame is None:
        raise InputError(*problems)
    source = Source(template=printable(text.path.name), parameters={}, shop=shop, file=TEXT_FRAME)
    return Request(frame=frame, workshop=workshop, source=source)


def _frame_document(asked: Asked, problems: list[Problem]) -> dict[str, Any] | None:
    """Read the text frame that is asked for; None when it is a template, or cannot be read."""
    if not isinstance(asked.template, TextFrame):
        return None
    try:
        return read_toml(asked.template.path)
    except TubeframeError as error:
        problems += error.problems
        return None


def _workshop(table: Mapping[str, Any], asked: Asked, problems: list[Problem]) -> Workshop:
    """Read the workshop; what an option gave is told under the option's name."""
    where = _shop_place(asked)
    try:
        return workshop_from_document(table, where)
    except TubeframeError as error:
        problems += [
            replace(p, where="", key=f"--{p.key.replace('_', '-')}") if p.key in asked.shop else p
            for p in error.problems
        ]
        return workshop_from_document({}, where)


def _other_template(given: ParametersFile, asked: Asked) -> list[Problem]:
    where = str(asked.parameters_file)
    if isinstance(asked.template, TextFrame):
        fits = not given.template or given.template.endswith(TEXT_SUFFIX)
        message = "a text frame has no parameters"
        unread = Problem(where=where, key="parameters", message=message, remedy="change the text frame itself")
        if fits:
            return [unread] if given.values else []
    elif given.template in {"", asked.template.name}:
        return []
    named = shown(given.template)
    message = f"the file is for {named}, not for {shown(asked.template.name)}"
    remedy = f"run: tubeframe build {given.template} --parameters {asked.parameters_file}"
    return [Problem(where=where, key="template", message=message, remedy=remedy)]


def _shop_table(given: ParametersFile, asked: Asked, problems: list[Problem]) -> dict[str, Any]:
    """Take the workshop file when one is named, else what the parameters file carries; options rule over both."""
    table = dict(given.shop)
    if asked.workshop_file is not None:
        try:
            table = read_workshop(asked.workshop_file)
        except TubeframeError as error:
            problems += error.problems
    return {**table, **asked.shop}


def _shop_place(asked: Asked) -> str:
    return str(asked.workshop_file or asked.parameters_file or "command line")


def _values(
    template: AnyTemplate, given: ParametersFile, asked: Asked, workshop: Workshop, problems: list[Problem]
) -> Any:
    raw = {**given.values, **asked.values}
    where = {name: str(asked.parameters_file) for name in given.values} | dict.fromkeys(asked.values, "")
    try:
        with users_code(template.file):
            return read_values(template.parameters, raw, workshop, where)
    except TubeframeError as error:
        named = (replace(p, key=f"--{p.key}") if not p.where else p for p in error.problems)
        problems += named
        return None
