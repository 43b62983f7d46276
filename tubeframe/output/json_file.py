"""The design as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from tubeframe.design_document import design_document
from tubeframe.errors import printable

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.design import Design


def write_design(design: Design, target: BinaryIO) -> None:
    """Write `design.json`: no NaN, which JSON does not know, and nothing that a terminal would obey."""
    text = json.dumps(design_document(design), indent=1, ensure_ascii=False, allow_nan=False)
    target.write("\n".join(map(printable, text.split("\n"))).encode() + b"\n")
