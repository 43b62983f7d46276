"""Run as `tubeframe` or `python -m tubeframe`: whatever happens ends in plain words, never in a traceback."""

from __future__ import annotations

import gc
import os
import signal
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from types import FrameType

WRONG_USE = 2
OWN_FAULT = 3
STOPPED = 130
NOBODY_READS = 141
"""The exit status of a program that writes into a closed pipe, as a shell has it: 128 and the signal's number."""
_MOST_SHOWN = 300
_SELDOM = 200_000
"""So many new objects until rings among them are looked for: hardly any are made, and looking took a tenth of a run."""


class _CtrlC:
    """Remembers that the person stopped it: a library that is loading makes an error of its own of that."""

    def __init__(self) -> None:
        self.pressed = False

    def listen(self) -> None:
        """Take Ctrl-C, where the system has not been told to ignore it."""
        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            signal.signal(signal.SIGINT, self._press)

    def release(self) -> None:
        """Leave Ctrl-C as it was found."""
        if signal.getsignal(signal.SIGINT) == self._press:
            signal.signal(signal.SIGINT, signal.default_int_handler)

    def _press(self, number: int, frame: FrameType | None) -> None:
        del number, frame
        self.pressed = True
        sys.unraisablehook = lambda _: None
        raise KeyboardInterrupt


def main() -> None:
    """Run the command line; problems go to standard error, one a line."""
    stop = _CtrlC()
    stop.listen()
    gc.set_threshold(_SELDOM)
    try:
        status = _status()
        sys.stdout.flush()
    except BaseException as error:
        if os.environ.get("TUBEFRAME_TRACE"):
            raise
        status = STOPPED if stop.pressed else _told(error)
    finally:
        stop.release()
    if stop.pressed and status:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        sys.stderr.write("tubeframe: stopped; nothing was changed that is not whole\n")
        sys.stderr.flush()
        os._exit(STOPPED)  # left to itself, Python may end by the signal, which some shells tell on a second line
    sys.exit(status)


def _status() -> int:
    """Run a command and return its exit status."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:  # closed by who started it
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: PTH123, SIM115
    if hasattr(sys.stdout, "reconfigure"):
        sys.stdout.reconfigure(errors="backslashreplace")  # a sign that a terminal cannot show
    from tubeframe.cli.app import app

    ended = app(prog_name="tubeframe", standalone_mode=False)
    return ended if isinstance(ended, int) else 0


def _told(error: BaseException) -> int:
    """Say what went wrong, and return the exit status."""
    from tubeframe.errors import TubeframeError, cut, printable, words_of

    match error:
        case SystemExit() if isinstance(error.__context__, BrokenPipeError):
            return NOBODY_READS
        case SystemExit():
            return error.code if isinstance(error.code, int) else WRONG_USE
        case TubeframeError():
            _say(*map(str, error.problems))
            return WRONG_USE
        case BrokenPipeError():
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return NOBODY_READS
        case OSError():
            where = cut(str(error.filename), _MOST_SHOWN) if error.filename is not None else "what is printed"
            _say(printable(f"{where}: {error.strerror or error}; look at the name, the disk and who may write there"))
            return WRONG_USE
        case MemoryError():
            _say("there is not enough memory; build less at once, such as --only csv")
            return WRONG_USE
        case _ if (usage := _usage(error)) is not None:
            _say(*([printable(usage)] if usage else []))
            return WRONG_USE
    _say(
        printable(f"a fault of tubeframe itself: {type(error).__name__}: {words_of(error)}")
        + "; please report it with what you typed (TUBEFRAME_TRACE=1 shows where)"
    )
    return OWN_FAULT


def _say(*problems: str) -> None:
    for problem in problems:
        sys.stderr.write(f"tubeframe: {problem}\n")


def _usage(error: BaseException) -> str | None:
    """Return what the command line's library says of a command that cannot be read; None where it says nothing."""
    from tubeframe.errors import cut

    try:
        ctx, message = error.ctx, error.format_message()  # type: ignore[attr-defined]  # its class is not public
    except AttributeError:
        return None
    command = ctx.command_path if ctx is not None else "tubeframe"
    words = cut(" ".join(message.split()).rstrip("."), _MOST_SHOWN)
    return f"{words}; see {command} --help" if words else ""


if __name__ == "__main__":
    main()
