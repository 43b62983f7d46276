"""Where a cut length comes from, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.parts.explain import Source

if TYPE_CHECKING:
    from tubeframe.parts.explain import Term


def term_words(term: Term) -> str:
    """Say what a term of a cut length is."""
    match term.source:
        case Source.WHOLE:
            return "from middle to middle of what is at its ends"
        case Source.STRAIGHT:
            return "straight"
        case Source.BEND:
            return f"bend: radius x angle, {term.angle:.1f} degrees"
        case Source.THICKNESS:
            slant = f", over the sine of {term.angle:.1f} degrees" if term.angle else ""
            return f"{_end(term)}: thickness of the {term.kind}{slant}"
        case Source.SETBACK:
            return f"{_end(term)}: setback in the {term.kind} ({term.joint})"


def _end(term: Term) -> str:
    return f"end {term.end.value.upper()}" if term.end else "end"
