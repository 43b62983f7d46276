"""The design as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from tubeframe.design_document import design_document

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.design import Design


def write_design(design: Design, target: BinaryIO) -> None:
    """Write `design.json`."""
    target.write(json.dumps(design_document(design), indent=1, ensure_ascii=False).encode() + b"\n")
