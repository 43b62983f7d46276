"""Options that say what a frame has to bear; they rule over the workshop file's keys of the same names."""

from __future__ import annotations

from typing import Any

ASKED: dict[str, tuple[Any, tuple[str, ...], str]] = {
    "load": (str | None, ("--load",), "what it has to carry, such as 200lb or 90kg"),
    "wind": (str | None, ("--wind",), "the design wind speed of your place, such as 100mph or 45m/s"),
    "snow": (str | None, ("--snow",), "the ground snow load of your place, such as 25psf or 1.2kPa"),
    "pull_out": (str | None, ("--pull-out",), "what one of your anchors holds when it is pulled, such as 300lb"),
}
