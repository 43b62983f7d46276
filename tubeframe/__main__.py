"""Run as `tubeframe` or `python -m tubeframe`: no traceback ever reaches a user."""

from __future__ import annotations

import os
import sys

from tubeframe.errors import TubeframeError

WRONG_USE = 2
OWN_FAULT = 3


def main() -> None:
    """Run the command line; problems go to standard error, one a line."""
    try:
        from tubeframe.cli.app import app

        app(prog_name="tubeframe")
    except TubeframeError as error:
        for problem in error.problems:
            sys.stderr.write(f"tubeframe: {problem}\n")
        sys.exit(WRONG_USE)
    except Exception as error:
        if os.environ.get("TUBEFRAME_TRACE"):
            raise
        sys.stderr.write(
            f"tubeframe: a fault of tubeframe itself: {type(error).__name__}: {error}; "
            "please report it with what you typed (TUBEFRAME_TRACE=1 shows where)\n"
        )
        sys.exit(OWN_FAULT)


if __name__ == "__main__":
    main()
