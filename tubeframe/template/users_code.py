"""A fault in the code of a user's own template is told as the user's, with file and line."""

from __future__ import annotations

import traceback
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.errors import InputError, Problem, TubeframeError, words_of

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextmanager
def users_code(file: Path | None) -> Iterator[None]:
    """Run the code of a template's file; None for a template of our own, whose faults are ours and go through.

    Raises:
        InputError: with the file, the line in it, and what went wrong there.

    """
    try:
        yield
    except TubeframeError as error:
        line = _line(file, error) if file else None
        if line is None:
            raise
        told = (replace(p, where=": ".join(w for w in (f"{file}, line {line}", p.where) if w)) for p in error.problems)
        raise InputError(*told) from error
    except (Exception, SystemExit) as error:
        if file is None:
            raise
        what = ": ".join(filter(None, (type(error).__name__, words_of(error))))
        line = _line(file, error)
        where = str(file) if line is None else f"{file}, line {line}"
        message = f"the template stops with {what}"
        raise InputError(Problem(where=where, key="", message=message, remedy="mend it there")) from error


def _line(file: Path, error: BaseException) -> int | None:
    """Return the last line of a file that ran, or the one that cannot be read; None when none of it is to blame."""
    if isinstance(error, SyntaxError) and error.filename and Path(error.filename).resolve() == file.resolve():
        return error.lineno
    ran = traceback.extract_tb(error.__traceback__)
    return next((f.lineno for f in reversed(ran) if Path(f.filename).resolve() == file.resolve()), None)
