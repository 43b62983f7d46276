"""What a design was made from, as TOML. Only what our own files hold: tables, arrays of tables, texts, numbers."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING, Any

from tubeframe.design_document import parameters_document
from tubeframe.errors import printable
from tubeframe.frame.writing import frame_document

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from typing import BinaryIO

    from tubeframe.design import Design

_SIGNS = {'"': '\\"', "\\": "\\\\"}


def write_frame(design: Design, target: BinaryIO) -> None:
    """Write `frame.toml`, a text frame that builds the same again."""
    document = frame_document(design.frame, design.workshop.units)
    target.write(("\n".join(_table(document, ())) + "\n").encode())


def write_parameters(design: Design, target: BinaryIO) -> None:
    """Write `parameters.toml`; its first line is a command that works in its folder."""
    target.write((_head(design) + "\n".join(_table(parameters_document(design), ())) + "\n").encode())


def _head(design: Design) -> str:
    named = design.source.named
    beside = f", with {printable(named)} beside it" if named.endswith(".py") else ""
    command = f"tubeframe build {shlex.quote(named)} --parameters parameters.toml"
    return f"# Builds the same frame again{beside}: {printable(command)}\n"


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
    return key if key.replace("-", "").replace("_", "").isalnum() and key.isascii() else _text(key)


def _text(text: str) -> str:
    """Write a text with its own letters; what cannot be printed stands as its number."""
    return f'"{"".join(_SIGNS.get(c) or (c if c.isprintable() else _by_number(c)) for c in text)}"'


def _by_number(sign: str) -> str:
    # half a letter, from a file's name that is no UTF-8, has no number in TOML
    number = ord(sign)
    if 0xD800 <= number < 0xE000:
        return "?"
    return f"\\u{number:04X}" if number < 0x10000 else f"\\U{number:08X}"


def _value(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return f"[{', '.join(_value(v) for v in value)}]"
    return repr(value)
