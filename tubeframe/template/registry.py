"""Finding templates: those that come with the package, and a file that the user names."""

from __future__ import annotations

import importlib.util
import sys
from dataclasses import replace
from functools import cache
from importlib.machinery import SourceFileLoader
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.errors import InputError, Problem, nearest_name
from tubeframe.template.parameters import specs_of
from tubeframe.template.template import AnyTemplate, Template
from tubeframe.template.users_code import users_code

if TYPE_CHECKING:
    from collections.abc import Iterator

_PACKAGE = Path(__file__).resolve().parents[1]


class _Uncached(SourceFileLoader):
    """Loads a file and leaves nothing beside it: the folder is the user's."""

    def set_data(self, path: str, data: object, *, _mode: int = 0o666) -> None:
        """Write no compiled code."""


@cache
def shipped_templates() -> tuple[AnyTemplate, ...]:
    """Load the templates that come with the package, by name."""
    return tuple(_loaded(path, None) for path in sorted(_folder().glob("*.py")))


def shipped_template(name: str) -> AnyTemplate:
    """Return the template of that name; InputError when there is none."""
    known = {t.name: t for t in shipped_templates()}
    if name not in known:
        raise InputError(
            Problem(where="", key=name, message="there is no such template", remedy=nearest_name(name, known))
        )
    return known[name]


def load_template(path: Path) -> AnyTemplate:
    """Load the file of a user's template; InputError, with its line, when it holds none or does not run."""
    return replace(_loaded(path, path), file=path)


def _loaded(path: Path, users: Path | None) -> AnyTemplate:
    if not path.is_file():
        raise InputError(Problem(where=str(path), key="", message="there is no such file", remedy="check the name"))
    loader = _Uncached(f"tubeframe_template_{path.stem}", str(path))
    spec = importlib.util.spec_from_loader(loader.name, loader)
    assert spec is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up there
    with users_code(users):
        loader.exec_module(module)
        found = getattr(module, "TEMPLATE", None)
        if not isinstance(found, Template):
            raise InputError(Problem(where=str(path), key="TEMPLATE", message="there is no template in this file"))
        specs_of(found.parameters)
    return found


def _folder() -> Path:
    """In a wheel templates are carried inside the package, in a checkout beside it."""
    return next(_candidates())


def _candidates() -> Iterator[Path]:
    for folder in (_PACKAGE / "_templates", _PACKAGE.parent / "templates"):
        if folder.is_dir():
            yield folder
    raise InputError(Problem(where=str(_PACKAGE), key="templates", message="the folder of templates is missing"))
