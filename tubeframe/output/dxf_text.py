r"""Words in a DXF file: what would be taken for a command is written so that it reads back as it was meant.

From memory, of the DXF reference and the command for single lines of text: `%%c` is a diameter sign and `%%%` one per
cent, `^J` a line break and `^` with a space one caret, `\U+00E9` a letter by its number.
"""

from __future__ import annotations

import re

from tubeframe.errors import printable

_BY_NUMBER = re.compile(r"\\(?=[UM]\+)", re.IGNORECASE)


def dxf_text(words: str, *, in_ascii: bool = False) -> str:
    """Return words as a line of text in a DXF file has them; what cannot be printed is shown as its code."""
    safe = _BY_NUMBER.sub(r"\\U+005C", printable(words)).replace("^", "^ ")
    if "%%" in safe:
        safe = safe.replace("%", "%%%")
    return "".join(map(_in_ascii, safe)) if in_ascii else safe


def _in_ascii(sign: str) -> str:
    number = ord(sign)
    if number < 0x80:
        return sign
    return f"\\U+{number:04X}" if number < 0x10000 else "?"
