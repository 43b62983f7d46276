"""A template: a name, parameters, and the function that lays a frame out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tubeframe.frame.frame import Frame
    from tubeframe.template.shop import Shop

P = TypeVar("P")


@dataclass(frozen=True, slots=True, kw_only=True)
class Template(Generic[P]):
    """What a template's file offers as its constant `TEMPLATE`; `file` is set when the user named that file.

    `sketch` is a small picture in letters.
    """

    name: str
    summary: str
    parameters: type[P]
    lay_out: Callable[[P, Shop], Frame]
    sketch: str = ""
    file: Path | None = None


AnyTemplate = Template[Any]
