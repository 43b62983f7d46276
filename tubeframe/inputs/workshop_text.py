"""Changing one value in the text of a workshop file; everything else, comments too, stays as it is."""

from __future__ import annotations

import re

_HEADER = re.compile(r"^\s*\[\[?[^\]]+\]\]?\s*(#.*)?$")


def with_setback(text: str, kind: str, value: str, note: str) -> str:
    """Return a workshop file's text with the setback of a kind of fitting, and a note behind it.

    A line that is there is replaced, else one is put below the fitting's own header, else a table at the end.
    """
    line = f'setback = "{value}"  # {note}'
    lines = text.splitlines()
    header = re.compile(rf"^\s*\[\s*fittings\s*\.\s*(\"{re.escape(kind)}\"|{re.escape(kind)})\s*\]\s*(#.*)?$")
    start = next((n for n, row in enumerate(lines) if header.match(row)), None)
    if start is None:
        gap = [] if not lines or not lines[-1].strip() else [""]
        return "\n".join([*lines, *gap, f"[fittings.{kind}]", line]) + "\n"
    end = next((n for n in range(start + 1, len(lines)) if _HEADER.match(lines[n])), len(lines))
    old = next((n for n in range(start + 1, end) if re.match(r"^\s*setback\s*=", lines[n])), None)
    if old is None:
        lines.insert(start + 1, line)
    else:
        lines[old] = line
    return "\n".join(lines) + "\n"
