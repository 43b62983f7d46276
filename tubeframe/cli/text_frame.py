"""A text frame on the command line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

TEXT_SUFFIX = ".toml"
TEXT_FRAME = "frame.toml"
"""What a build writes of a text frame beside its parameters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TextFrame:
    """A text frame's file, in place of a template."""

    path: Path

    @property
    def name(self) -> str:
        """What the folder is called when nothing else is said."""
        return self.path.stem
