"""`tubeframe check`: will it hold, with numbers; nothing is written and no CAD library is loaded."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from tubeframe.cli.asked import ASKED
from tubeframe.cli.template_group import template_app

if TYPE_CHECKING:
    from tubeframe.cli.text_frame import TextFrame
    from tubeframe.template.template import AnyTemplate

_GENERAL = {
    **ASKED,
    "design_for": (
        str | None,
        ("--design-for",),
        "carry so much, such as 300lb: tries tube sizes, braces and counts for the cheapest that passes",
    ),
    "remedies": (
        bool,
        ("--remedies",),
        "try tube sizes, choices and counts one by one, knees and posts too, and say what each would change",
    ),
    "parameters_file": (Path | None, ("--parameters",), "a file of parameters, such as a build's parameters.toml"),
    "workshop_file": (Path | None, ("--workshop",), "your workshop file (tubeframe workshop new)"),
    "units": (str | None, ("--units",), "in or mm: what is printed, and what a bare number means"),
    "as_json": (bool, ("--json",), "print the verdicts as JSON"),
}


def check(template: AnyTemplate | TextFrame, values: dict[str, str], options: dict[str, Any]) -> None:
    """Check a frame."""
    from tubeframe.cli.checking import check as run

    run(template, values, options)


check_app = template_app("check", "Check how {summary} holds.", _GENERAL, check)
