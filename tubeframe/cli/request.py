"""What the user asks for, from the command line, a parameters file and a workshop file."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source
from tubeframe.errors import InputError, Problem, TubeframeError
from tubeframe.inputs.parameters_file import ParametersFile, read_parameters
from tubeframe.inputs.toml_text import read_toml
from tubeframe.template.parameters import read_values, written_values
from tubeframe.template.shop import Shop

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.template.template import AnyTemplate


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was given on the command line."""

    template: AnyTemplate
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
    problems: list[Problem] = []
    given = ParametersFile()
    if asked.parameters_file is not None:
        try:
            given = read_parameters(asked.parameters_file)
        except TubeframeError as error:
            problems += error.problems
    problems += _other_template(given, asked)
    shop = _shop_table(given, asked, problems)
    where = _shop_place(asked)
    try:
        workshop = workshop_from_document(shop, where)
    except TubeframeError as error:
        problems += error.problems
        workshop = workshop_from_document({}, where)
    values = _values(given, asked, workshop, problems)
    if problems:
        raise InputError(*problems)
    frame = asked.template.lay_out(values, Shop(workshop=workshop))
    plain = written_values(values, workshop.units)
    return Request(
        frame=frame, workshop=workshop, source=Source(template=asked.template.name, parameters=plain, shop=shop)
    )


def _other_template(given: ParametersFile, asked: Asked) -> list[Problem]:
    if given.template in {"", asked.template.name}:
        return []
    return [
        Problem(
            where=str(asked.parameters_file),
            key="template",
            message=f"the file is for '{given.template}', not for '{asked.template.name}'",
            remedy=f"run: tubeframe build {given.template} --parameters {asked.parameters_file}",
        )
    ]


def _shop_table(given: ParametersFile, asked: Asked, problems: list[Problem]) -> dict[str, Any]:
    """Take the workshop file when one is named, else what the parameters file carries; options rule over both."""
    table = dict(given.shop)
    if asked.workshop_file is not None:
        try:
            table = read_toml(asked.workshop_file)
        except TubeframeError as error:
            problems += error.problems
    return {**table, **asked.shop}


def _shop_place(asked: Asked) -> str:
    return str(asked.workshop_file or asked.parameters_file or "command line")


def _values(given: ParametersFile, asked: Asked, workshop: Workshop, problems: list[Problem]) -> Any:
    raw = {**given.values, **asked.values}
    where = {name: str(asked.parameters_file) for name in given.values} | dict.fromkeys(asked.values, "")
    try:
        return read_values(asked.template.parameters, raw, workshop, where)
    except TubeframeError as error:
        named = (replace(p, key=f"--{p.key}") if not p.where else p for p in error.problems)
        problems += named
        return None
