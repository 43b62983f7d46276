"""What a design was made from, as TOML. Only what our own files hold: tables, arrays of tables, texts, numbers."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from tubeframe.design_document import parameters_document
from tubeframe.frame.writing import frame_document

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from typing import BinaryIO

    from tubeframe.design import Design

_HEAD = "# Builds the same frame again: tubeframe build --parameters FILE\n"


def write_frame(design: Design, target: BinaryIO) -> None:
    """Write `frame.toml`, a text frame that builds the same again."""
    document = frame_document(design.frame, design.workshop.units)
    target.write(("\n".join(_table(document, ())) + "\n").encode())


def write_parameters(design: Design, target: BinaryIO) -> None:
    """Write `parameters.toml`."""
    target.write((_HEAD + "\n".join(_table(parameters_document(design), ())) + "\n").encode())


def _table(table: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[str]:
    if path and any(not _is_nested(v) for v in table.values()):
        yield f"\n[{'.'.join(map(_key, path))}]"
    for key, value in table.items():
        if not _is_nested(value):
            yield f"{_key(key)} = {_value(value)}"
    for key, value in table.items():
        inner = (*path, key)
        if isinstance(value, dict):
            yield from _table(value, inner)
        elif _is_nested(value):
            for row in value:
                yield f"\n[[{'.'.join(map(_key, inner))}]]"
                yield from (f"{_key(k)} = {_value(v)}" for k, v in row.items())


def _is_nested(value: object) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and bool(value) and isinstance(value[0], dict))


def _key(key: str) -> str:
    return key if key.replace("-", "").replace("_", "").isalnum() and key.isascii() else json.dumps(key)


def _value(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return f"[{', '.join(_value(v) for v in value)}]"
    return repr(value)
