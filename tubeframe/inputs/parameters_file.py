"""A parameters file: what a build writes as `parameters.toml`, or a person by hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tubeframe.errors import InputError, Problem, nearest_name, shown
from tubeframe.inputs.toml_text import read_toml

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_KEYS = ("template", "parameters", "workshop")


@dataclass(frozen=True, slots=True, kw_only=True)
class ParametersFile:
    """The template's name (empty when not given), its raw values, and a workshop table."""

    template: str = ""
    values: Mapping[str, Any] = field(default_factory=dict)
    shop: Mapping[str, Any] = field(default_factory=dict)


def read_parameters(path: Path) -> ParametersFile:
    """Read a parameters file; InputError lists what is wrong with its layout."""
    document = read_toml(path)
    problems = [
        Problem(where=str(path), key=key, message="unknown key", remedy=nearest_name(key, _KEYS))
        for key in document
        if key not in _KEYS
    ]
    problems += [
        Problem(
            where=str(path),
            key=key,
            message=f"a table is needed, not {shown(document[key])}",
            remedy=f"write [{key}] on a line of its own",
        )
        for key in _KEYS[1:]
        if not isinstance(document.get(key, {}), dict)
    ]
    template = document.get("template", "")
    if not isinstance(template, str):
        message = f"the template's name is needed, not {shown(template)}"
        problems.append(Problem(where=str(path), key="template", message=message, remedy="write template = 'table'"))
    if problems:
        raise InputError(*problems)
    return ParametersFile(
        template=template,
        values=document.get("parameters", {}),
        shop=document.get("workshop", {}),
    )
