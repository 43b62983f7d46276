"""One command in this process, with what it printed, how it ended, and a guard over its time."""

from __future__ import annotations

import contextlib
import io
import os
import signal
import sys
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.__main__ import main

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

MOST_SECONDS = 10.0
"""Of a processor: what else runs on the machine does not count."""


class Guard:
    """Rings when a command takes too long; what it raises may be caught, that it rang is remembered."""

    def __init__(self) -> None:
        self.rang = False

    def __call__(self, number: int, frame: object) -> None:
        del number, frame
        self.rang = True
        raise TimeoutError


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """How a command ended."""

    arguments: tuple[str, ...]
    status: int | str
    out: str
    err: str
    seconds: float


def run(arguments: Sequence[str], folder: Path) -> Ended:
    """Run a command in a folder; its status is a word where it did not end as a program does."""
    out, err = io.StringIO(), io.StringIO()
    before, argv = os.getcwd(), sys.argv  # noqa: PTH109
    guard = Guard()
    handler = signal.signal(signal.SIGPROF, guard)
    start = time.process_time()
    status: int | str = 0
    try:
        os.chdir(folder)
        sys.argv = ["tubeframe", *arguments]
        signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            main()
    except SystemExit as end:
        status = end.code if isinstance(end.code, int | str) else 0
    except BaseException as error:
        status = f"{type(error).__name__}: {error}"[:300]
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, handler)
        sys.argv = argv
        status = "too long" if guard.rang else status
        os.chdir(before)
    seconds = time.process_time() - start
    return Ended(arguments=tuple(arguments), status=status, out=out.getvalue(), err=err.getvalue(), seconds=seconds)
