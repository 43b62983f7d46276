"""Finding templates: those that come with the package, and a file that the user names."""

from __future__ import annotations

import importlib.util
import sys
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.errors import InputError, Problem, nearest_name
from tubeframe.template.template import AnyTemplate, Template

if TYPE_CHECKING:
    from collections.abc import Iterator

_PACKAGE = Path(__file__).resolve().parents[1]


@cache
def shipped_templates() -> tuple[AnyTemplate, ...]:
    """Load the templates that come with the package, by name."""
    return tuple(load_template(path) for path in sorted(_folder().glob("*.py")))


def shipped_template(name: str) -> AnyTemplate:
    """Return the template of that name; InputError when there is none."""
    known = {t.name: t for t in shipped_templates()}
    if name not in known:
        raise InputError(
            Problem(where="", key=name, message="there is no such template", remedy=nearest_name(name, known))
        )
    return known[name]


def load_template(path: Path) -> AnyTemplate:
    """Load a template's file; InputError when it holds none or does not run."""
    spec = importlib.util.spec_from_file_location(f"tubeframe_template_{path.stem}", path)
    if spec is None or spec.loader is None:
        raise InputError(Problem(where=str(path), key="", message="this is not a Python file"))
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up there
    try:
        spec.loader.exec_module(module)
    except Exception as error:
        raise InputError(Problem(where=str(path), key="", message=f"the template does not load: {error}")) from error
    found = getattr(module, "TEMPLATE", None)
    if not isinstance(found, Template):
        raise InputError(Problem(where=str(path), key="TEMPLATE", message="there is no template in this file"))
    return found


def _folder() -> Path:
    """In a wheel templates are carried inside the package, in a checkout beside it."""
    return next(_candidates())


def _candidates() -> Iterator[Path]:
    for folder in (_PACKAGE / "_templates", _PACKAGE.parent / "templates"):
        if folder.is_dir():
            yield folder
    raise InputError(Problem(where=str(_PACKAGE), key="templates", message="the folder of templates is missing"))
