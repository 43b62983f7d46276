"""Documents written as TOML, odd values too; and bytes spoiled after that."""

from __future__ import annotations

import datetime
import json
import re
from typing import TYPE_CHECKING, Any

from tests.hostile.values import Bare

if TYPE_CHECKING:
    from collections.abc import Mapping
    from random import Random  # noqa: TID251  drawn with a seed: the same every time

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def toml(document: Mapping[str, Any]) -> str:
    """Write every key on one line."""
    return "".join(f"{_key(key)} = {_value(value)}\n" for key, value in document.items())


def toml_tables(document: Mapping[str, Any], path: tuple[str, ...] = ()) -> str:
    """Write tables under headers, as a person does; values first."""
    plain = {k: v for k, v in document.items() if not _is_nested(v)}
    nested = {k: v for k, v in document.items() if _is_nested(v)}
    head = f"[{'.'.join(map(_key, path))}]  # {path[-1]}\n" if path and plain else ""
    text = head + toml(plain)
    for key, value in nested.items():
        inner = (*path, key)
        if isinstance(value, dict):
            text += toml_tables(value, inner)
        else:
            text += "".join(f"[[{'.'.join(map(_key, inner))}]]\n{toml(row)}" for row in value)
    return text


def _is_nested(value: Any) -> bool:
    return (isinstance(value, dict) and any(not k[:1].isdigit() for k in value)) or (
        isinstance(value, list) and bool(value) and all(isinstance(v, dict) for v in value)
    )


def _key(key: str) -> str:
    return key if _BARE_KEY.fullmatch(key) else json.dumps(key)


def _value(value: Any) -> str:
    match value:
        case Bare():
            return value.text
        case bool():
            return str(value).lower()
        case str():
            return json.dumps(value).replace("\x7f", "\\u007f") if value.isascii() else _text(value)
        case dict():
            return "{" + ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items()) + "}"
        case list():
            return "[" + ", ".join(map(_value, value)) + "]"
        case datetime.date() | datetime.time():
            return value.isoformat()
    return repr(value)


def _text(value: str) -> str:
    """Write a text with its own letters; only what TOML forbids is escaped."""
    escaped = (f"\\u{ord(c):04x}" if ord(c) < 32 or c in '"\\\x7f' else c for c in value)
    return f'"{"".join(escaped)}"'


def spoiled_bytes(draw: Random, data: bytes) -> bytes:
    """Cut, glue, recode or sprinkle a file."""
    at = draw.randrange(len(data) + 1)
    match draw.randrange(10):
        case 0:
            return data[:at]
        case 1:
            return b"\xef\xbb\xbf" + data
        case 2:
            return data.replace(b"\n", b"\r\n")
        case 3:
            return data.replace(b"\n", b"\r")
        case 4:
            return data[:at] + "é".encode("latin-1") + data[at:]
        case 5:
            return data.decode("utf-8", "replace").encode("utf-16")
        case 6:
            return data[:at] + bytes(draw.randrange(256) for _ in range(8)) + data[at:]
        case 7:
            return data[:at] + b"\x00" + data[at:]
        case 8:
            return data + b"# " + b"x" * draw.choice((900_000, 6_000_000)) + b"\n"
    return data[:at] + data[draw.randrange(len(data)) :]
