"""Tags of a DXF file: pairs of a group code and a value, gathered into sections and entities. Standard library only.

Group codes are those of the published DXF reference (from memory).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from tests.outputs.readers.plane import Point

Tag = tuple[int, str]

_UTF8_SINCE = "AC1021"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entity:
    """One entity, table row or object: what follows a group 0 up to the next one."""

    kind: str
    tags: tuple[Tag, ...]

    def all(self, code: int) -> tuple[str, ...]:
        """Every value of a group code, in order."""
        return tuple(value for found, value in self.tags if found == code)

    def has(self, code: int) -> bool:
        """Whether the entity has a group code."""
        return any(found == code for found, _ in self.tags)

    def text(self, code: int, default: str = "") -> str:
        """The first value of a group code."""
        return next((value for found, value in self.tags if found == code), default)

    def number(self, code: int, default: float = 0.0) -> float:
        """The first value of a group code, as a number."""
        return float(self.text(code, str(default)))

    def whole(self, code: int, default: int = 0) -> int:
        """The first value of a group code, as a whole number."""
        return int(self.text(code, str(default)))

    def point(self, code: int) -> Point:
        """The point whose x has this group code and whose y has the code ten above."""
        if not (self.has(code) and self.has(code + 10)):
            msg = f"{self.kind} {self.text(5)} has no point {code}"
            raise ValueError(msg)
        return (self.number(code), self.number(code + 10))

    @property
    def layer(self) -> str:
        """Its layer; "0" where it names none."""
        return self.text(8, "0")


@dataclass(frozen=True, slots=True, kw_only=True)
class TagFile:
    """A DXF file's sections.

    Attributes:
        version: `$ACADVER`, such as AC1024.
        header: values of each header variable.
        tables, blocks, entities, objects: rows and entities of these sections, flat, in order.
    """

    version: str
    header: Mapping[str, tuple[str, ...]]
    tables: tuple[Entity, ...]
    blocks: tuple[Entity, ...]
    entities: tuple[Entity, ...]
    objects: tuple[Entity, ...]


def read(path: Path) -> TagFile:
    """Reads a text DXF file.

    Raises:
        ValueError: an odd number of lines, a group code that is no number, a section that never ends, no EOF, a letter
            that the file's encoding doesn't have, or one handle given to two entities.
    """
    raw = path.read_bytes()
    version = _version(raw)
    encoding = "utf-8" if version >= _UTF8_SINCE else "cp1252"
    sections = _sections(_tags(raw.decode(encoding)))
    found = {name: _entities(sections.get(name, ())) for name in ("TABLES", "BLOCKS", "ENTITIES", "OBJECTS")}
    _check_handles([entity for entities in found.values() for entity in entities])
    return TagFile(
        version=version,
        header=_header(sections.get("HEADER", ())),
        tables=found["TABLES"],
        blocks=found["BLOCKS"],
        entities=found["ENTITIES"],
        objects=found["OBJECTS"],
    )


def _version(raw: bytes) -> str:
    match = re.search(rb"\$ACADVER\s+1\s+(AC\d{4})", raw)
    if match is None:
        msg = "no $ACADVER in the header"
        raise ValueError(msg)
    return match[1].decode("ascii")


def _tags(text: str) -> list[Tag]:
    lines = text.replace("\r\n", "\n").rstrip("\n").split("\n")
    if len(lines) % 2:
        msg = f"an odd number of lines ({len(lines)}): a group code without a value"
        raise ValueError(msg)
    tags: list[Tag] = []
    for index in range(0, len(lines), 2):
        code = lines[index].strip()
        if not re.fullmatch(r"-?\d+", code):
            msg = f"line {index + 1}: {code!r} is not a group code"
            raise ValueError(msg)
        tags.append((int(code), lines[index + 1]))
    if tags[-1] != (0, "EOF"):
        msg = "no EOF at the end"
        raise ValueError(msg)
    return [tag for tag in tags[:-1] if tag[0] != 999]  # 999 is a remark


def _sections(tags: list[Tag]) -> dict[str, tuple[Tag, ...]]:
    sections: dict[str, tuple[Tag, ...]] = {}
    start = 0
    while start < len(tags):
        if tags[start] != (0, "SECTION") or start + 1 == len(tags) or tags[start + 1][0] != 2:
            msg = f"expected a section, found {tags[start]}"
            raise ValueError(msg)
        name = tags[start + 1][1]
        try:
            end = tags.index((0, "ENDSEC"), start)
        except ValueError:
            msg = f"section {name} never ends"
            raise ValueError(msg) from None
        if (0, "SECTION") in tags[start + 2 : end]:
            msg = f"section {name} never ends"
            raise ValueError(msg)
        sections[name] = tuple(tags[start + 2 : end])
        start = end + 1
    return sections


def _header(tags: tuple[Tag, ...]) -> dict[str, tuple[str, ...]]:
    values: dict[str, tuple[str, ...]] = {}
    name = ""
    for code, value in tags:
        if code == 9:
            name = value
            values[name] = ()
        else:
            values[name] = (*values.get(name, ()), value.strip())
    return values


def _entities(tags: tuple[Tag, ...]) -> tuple[Entity, ...]:
    starts = [index for index, (code, _) in enumerate(tags) if code == 0]
    ends = [*starts[1:], len(tags)] if starts else []
    return tuple(
        Entity(kind=tags[start][1].strip(), tags=tags[start + 1 : end]) for start, end in zip(starts, ends, strict=True)
    )


def _check_handles(entities: list[Entity]) -> None:
    owners: dict[str, str] = {}
    for entity in entities:
        handle = entity.text(105 if entity.kind == "DIMSTYLE" else 5)
        if handle and handle in owners:
            msg = f"handle {handle} is given to {owners[handle]} and to {entity.kind}"
            raise ValueError(msg)
        owners[handle] = entity.kind
