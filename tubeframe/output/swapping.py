"""Putting one folder in the place of another in a single step of the system, where it has one."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from functools import cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

_HERE = -100
"""AT_FDCWD: a path is taken as it stands (Linux, fcntl.h)."""
_EXCHANGE = 2
"""RENAME_EXCHANGE: both paths are there, and change places (Linux, renameat2(2))."""
_SWAP = 2
"""RENAME_SWAP, the same (macOS, renamex_np(2); from memory, not tried)."""
_CANNOT = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EXDEV, errno.EBUSY, errno.EPERM, errno.EACCES}


def swap(one: Path, other: Path) -> bool:
    """Let two folders change places in one step; whether the system could.

    Raises:
        OSError: where it failed for another reason.

    """
    call = _call()
    if call is None:
        return False
    failed = call(os.fsencode(one), os.fsencode(other))
    if not failed:
        return True
    number = ctypes.get_errno()
    if number in _CANNOT:
        return False
    raise OSError(number, os.strerror(number), str(other))


@cache
def _call() -> Any | None:  # noqa: ANN401  a function of the system carries no types
    library = ctypes.CDLL(None, use_errno=True) if os.name == "posix" else None
    if sys.platform.startswith("linux") and hasattr(library, "renameat2"):
        return lambda a, b: library.renameat2(_HERE, a, _HERE, b, _EXCHANGE)  # type: ignore[union-attr]
    if sys.platform == "darwin" and hasattr(library, "renamex_np"):
        return lambda a, b: library.renamex_np(a, b, _SWAP)  # type: ignore[union-attr]
    return None
