"""Names in a STEP file (ISO 10303-21, 6.4.3, from memory): each reads back as it was typed, whatever is in it.

The kernel is given a word of ours in place of each name, so that nothing in a name is taken for a part of the file.
"""

from __future__ import annotations

import re

from tubeframe.errors import printable

_STAND_IN = re.compile(r"tubeframe\.name\.(\d+)\.")
_TWO_BYTES = re.compile(r"[^ -~\U00010000-\U0010ffff]+")
_FOUR_BYTES = re.compile(r"[\U00010000-\U0010ffff]+")


class Names:
    """Names and the words that stand in for them while a file is made."""

    def __init__(self) -> None:
        """Begin with none."""
        self._numbers: dict[str, int] = {}

    def stand_in(self, name: str) -> str:
        """Return the word that stands in for a name; the same for the same."""
        return f"tubeframe.name.{self._numbers.setdefault(name, len(self._numbers))}."

    def put_in(self, text: str) -> str:
        """Put the names where their words stand."""
        names = [_written(name) for name in self._numbers]
        return _STAND_IN.sub(lambda found: names[int(found[1])], text)


def _written(name: str) -> str:
    """Write a name as a string has it: quotes and backslashes twice, letters past ASCII by their numbers."""
    words = printable(name).replace("\\", "\\\\").replace("'", "''")
    words = _TWO_BYTES.sub(lambda found: f"\\X2\\{found[0].encode('utf-16-be').hex().upper()}\\X0\\", words)
    return _FOUR_BYTES.sub(lambda found: f"\\X4\\{found[0].encode('utf-32-be').hex().upper()}\\X0\\", words)
