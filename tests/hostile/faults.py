"""A fault at the n-th call that changes something on the disk: the process ends there, or the call fails."""

from __future__ import annotations

import ctypes
import errno
import io
import os
import sys
from typing import TYPE_CHECKING

from tubeframe.output import exchange, swapping

if TYPE_CHECKING:
    from collections.abc import Callable

KILLED = 9
_CALLS = ("mkdir", "rename", "replace", "link", "unlink", "rmdir", "symlink", "chmod", "utime")


class Faults:
    """Counts the calls that change something; the n-th is a fault, before it is done."""

    def __init__(self, number: int, *, full: bool) -> None:
        self._left, self._full = number, full

    def install(self) -> None:
        """Put it before every call of this process."""
        for name in _CALLS:
            setattr(os, name, self._before(getattr(os, name)))
        io.open = self._before(io.open)  # what pathlib opens files by
        exchange.swap = self._before(swapping.swap)  # type: ignore[attr-defined]

    def _before(self, call: Callable[..., object]) -> Callable[..., object]:
        def called(*arguments: object, **named: object) -> object:
            if call.__name__ != "open" or set(str(arguments[1:2])) & set("wax"):
                self._left -= 1
                if self._left == 0:
                    self._fault()
            return call(*arguments, **named)

        called.__name__ = call.__name__
        return called

    def _fault(self) -> None:
        if self._full:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        os._exit(KILLED)


def in_child(work: Callable[[], None]) -> int:
    """Do something in a child of this process; return its exit status: 0, that of the kill, or 1 for an error."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    status = 1
    try:
        work()
        status = 0
    except OSError:
        status = 1
    finally:
        sys.stdout.flush()
        os._exit(status)


def no_exchange() -> None:
    """Make the system one that cannot exchange folders."""
    exchange.swap = lambda one, other: False  # type: ignore[attr-defined]


def is_linux_with_exchange() -> bool:
    """Whether the system can exchange folders."""
    return sys.platform.startswith("linux") and hasattr(ctypes.CDLL(None), "renameat2")
