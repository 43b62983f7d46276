"""A second process that makes some files while the first makes the others.

The kernel for solids takes as long to load as a small frame takes to be drawn. Where no second process can be had, or
it fails, whoever asked makes the files himself, and has the error told where it arises.
"""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
from threading import Thread
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence
    from types import TracebackType
    from typing import Self

    from tubeframe.design import Design
    from tubeframe.output.build_files import Format


class SecondProcess:
    """A process that was started before the design was known, so that the kernel is there when it is.

    Used as a context: whatever happens within, the process does not outlive it.
    """

    def __init__(self) -> None:
        """Start a process, where there is a processor for it."""
        self._process = _started() if _processors() > 1 else None
        self._exchange: Thread | None = None
        self._made: bytes = b""

    def __enter__(self) -> Self:
        """Go on while the kernel loads."""
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        """End the process, whatever it is at."""
        if self._process is not None:
            self._process.kill()
            if self._exchange is not None:
                self._exchange.join()
            else:
                self._process.communicate()

    def give(self, design: Design, formats: Collection[Format], names: Sequence[str]) -> None:
        """Have the files of some names made of a design, as a build of some formats makes them."""
        if self._process is None:
            return
        try:
            asked = pickle.dumps((design, tuple(formats), tuple(names)))
        except (pickle.PicklingError, AttributeError, TypeError):
            return  # a template of one's own may have put anything into the design
        self._exchange = Thread(target=self._talk, args=(asked,), daemon=True)
        self._exchange.start()

    def made(self) -> dict[str, bytes]:
        """Wait for the files and return them by name; empty where they have to be made here."""
        if self._process is None or self._exchange is None:
            return {}
        self._exchange.join()
        if self._process.returncode != 0:
            return {}
        files: dict[str, bytes] = pickle.loads(self._made)
        return files

    def _talk(self, asked: bytes) -> None:
        if self._process is not None:
            self._made, _ = self._process.communicate(asked)


def _started() -> subprocess.Popen[bytes] | None:
    command = [sys.executable, "-P", "-m", __name__]
    try:
        return subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    except OSError:
        return None


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _serve() -> None:
    """Load the kernel, then read what to make, and write the files, by name."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # who started it ends it
    answer = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what the kernel prints does not get into the answer
    from tubeframe.output.build_files import Content

    design, formats, names = pickle.load(sys.stdin.buffer)
    with answer:
        pickle.dump(Content(design, formats).files(names), answer)


if __name__ == "__main__":
    _serve()
