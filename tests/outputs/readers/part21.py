"""Plain text of a STEP file (ISO 10303-21, the clear text encoding), read without a CAD library.

From the grammar of ISO 10303-21:2002 (from memory): a file is a header section and a data section of instances,
`#12 = KEYWORD(parameters);`, or `#12 = (KEYWORD(..) KEYWORD(..));` where several types share one instance.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Ref:
    """A reference to another instance, `#12`."""

    number: int


@dataclass(frozen=True, slots=True)
class Word:
    """A word between dots, `.MILLI.`; also `$` (nothing given) and `*` (derived)."""

    text: str


@dataclass(frozen=True, slots=True)
class Record:
    """A keyword with its parameters; inside parameters a typed value such as `LENGTH_MEASURE(25.4)`."""

    keyword: str
    parameters: tuple[Parameter, ...]


Parameter = float | int | str | Ref | Word | Record | tuple["Parameter", ...]

NOTHING = Word("$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchange:
    """A whole file, in its own order.

    Attributes:
        header: the header's records by keyword.
        instances: the records of each instance; more than one where several types share it.
        statements: each instance as it is written, without the white space between its tokens.
    """

    header: Mapping[str, Record]
    instances: Mapping[int, tuple[Record, ...]]
    statements: Mapping[int, str]

    def record(self, number: int, keyword: str) -> Record:
        """The part called `keyword` of an instance; `ValueError` where the instance has none."""
        for record in self.instances.get(number, ()):
            if record.keyword == keyword:
                return record
        found = ", ".join(record.keyword for record in self.instances.get(number, ())) or "no such instance"
        msg = f"#{number} should be {keyword}, found {found}"
        raise ValueError(msg)

    def all(self, keyword: str) -> Iterator[tuple[int, Record]]:
        """Every instance that has a part called `keyword`, with its number."""
        for number, records in self.instances.items():
            for record in records:
                if record.keyword == keyword:
                    yield number, record

    def dangling(self) -> tuple[tuple[int, int], ...]:
        """Pairs (instance, reference) where the reference leads to no instance."""
        return tuple(
            (number, target)
            for number, records in self.instances.items()
            for record in records
            for target in references(record)
            if target not in self.instances
        )

    def only(self, numbers: Iterable[int]) -> str:
        """Text of a STEP file with these instances and all that they lead to, and nothing else."""
        kept: set[int] = set()
        waiting = list(numbers)
        while waiting:
            number = waiting.pop()
            if number not in kept:
                kept.add(number)
                waiting += [target for record in self.instances[number] for target in references(record)]
        body = "\n".join(self.statements[number] for number in sorted(kept))
        return f"ISO-10303-21;\nHEADER;\n{_BARE_HEADER}\nENDSEC;\nDATA;\n{body}\nENDSEC;\nEND-ISO-10303-21;\n"


_BARE_HEADER = (
    "FILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\nFILE_SCHEMA(('AUTOMOTIVE_DESIGN'));"
)


def references(value: Parameter) -> Iterator[int]:
    """Every instance number in a parameter, at any depth, in order."""
    if isinstance(value, Ref):
        yield value.number
    elif isinstance(value, Record):
        yield from references(value.parameters)
    elif isinstance(value, tuple):
        for inner in value:
            yield from references(inner)


_TOKEN = re.compile(
    r"""(?P<space>\s+|/\*.*?\*/)
      | (?P<text>'(?:[^']|'')*')
      | (?P<ref>\#\d+)
      | (?P<real>[-+]?\d+\.\d*(?:E[-+]?\d+)?)
      | (?P<integer>[-+]?\d+)
      | (?P<word>\.[A-Z][A-Z0-9_]*\.|[$*])
      | (?P<keyword>!?[A-Z][A-Z0-9_]*(?:-[A-Z0-9_]+)*)
      | (?P<binary>"[0-9A-F]*")
      | (?P<mark>[(),;=])""",
    re.VERBOSE | re.DOTALL,
)

_Token = tuple[str, str]


def _tokens(text: str) -> Iterator[_Token]:
    place = 0
    while place < len(text):
        match = _TOKEN.match(text, place)
        if match is None:
            line = text.count("\n", 0, place) + 1
            msg = f"line {line}: not a Part 21 token: {text[place : place + 30]!r}"
            raise ValueError(msg)
        place = match.end()
        if match.lastgroup != "space":
            yield str(match.lastgroup), match.group()


def _statements(text: str) -> Iterator[tuple[_Token, ...]]:
    statement: list[_Token] = []
    for token in _tokens(text):
        if token == ("mark", ";"):
            yield tuple(statement)
            statement = []
        else:
            statement.append(token)
    if statement:
        msg = f"the file ends inside a statement: {' '.join(t for _, t in statement)[:60]!r}"
        raise ValueError(msg)


class _Cursor:
    """Reads parameters from one statement, from left to right."""

    def __init__(self, tokens: tuple[_Token, ...]) -> None:
        self._tokens = tokens
        self._next = 0

    def at(self, mark: str) -> bool:
        return self._next < len(self._tokens) and self._tokens[self._next] == ("mark", mark)

    def take(self) -> _Token:
        if self._next >= len(self._tokens):
            msg = f"statement ends too early: {self.shown()}"
            raise ValueError(msg)
        self._next += 1
        return self._tokens[self._next - 1]

    def expect(self, mark: str) -> None:
        kind, text = self.take()
        if (kind, text) != ("mark", mark):
            msg = f"expected {mark!r}, found {text!r} in {self.shown()}"
            raise ValueError(msg)

    def end(self) -> None:
        if self._next != len(self._tokens):
            msg = f"text left over: {self._tokens[self._next][1]!r} in {self.shown()}"
            raise ValueError(msg)

    def shown(self) -> str:
        return " ".join(text for _, text in self._tokens)[:80]

    def record(self) -> Record:
        kind, keyword = self.take()
        if kind != "keyword":
            msg = f"expected a keyword, found {keyword!r} in {self.shown()}"
            raise ValueError(msg)
        return Record(keyword, self.list())

    def list(self) -> tuple[Parameter, ...]:
        self.expect("(")
        values: list[Parameter] = []
        while not self.at(")"):
            if values:
                self.expect(",")
            values.append(self.value())
        self.expect(")")
        return tuple(values)

    def value(self) -> Parameter:
        if self.at("("):
            return self.list()
        kind, text = self.take()
        if kind == "keyword":
            return Record(text, self.list())
        return _plain(kind, text)


def _plain(kind: str, text: str) -> Parameter:
    if kind == "text":
        return decode(text[1:-1])
    if kind == "ref":
        return Ref(int(text[1:]))
    if kind == "real":
        return float(text)
    if kind == "integer":
        return int(text)
    if kind == "word":
        return Word(text.strip("."))
    msg = f"unexpected {text!r}"
    raise ValueError(msg)


_CODED = re.compile(
    r"''|\\\\|\\S\\.|\\X\\[0-9A-F]{2}|\\X2\\(?:[0-9A-F]{4})+\\X0\\|\\X4\\(?:[0-9A-F]{8})+\\X0\\|\\P[A-I]\\|\\"
)


def decode(text: str) -> str:
    r"""The meaning of a string's text: doubled signs and the codes `\S\`, `\X\`, `\X2\` and `\X4\`."""
    return _CODED.sub(lambda match: _letter(match.group()), text)


def _letter(code: str) -> str:
    if code in ("''", "\\\\"):
        return code[0]
    if code.startswith("\\S\\"):
        return chr(ord(code[3]) + 128)
    if code.startswith("\\X\\"):
        return chr(int(code[3:], 16))
    if code.startswith(("\\X2\\", "\\X4\\")):
        coded = bytes.fromhex(code[4:-4])
        return coded.decode("utf-16-be" if code[2] == "2" else "utf-32-be")
    if code.startswith("\\P"):
        return ""
    msg = "a lone backslash in a string"
    raise ValueError(msg)


def read(path: Path) -> Exchange:
    """Reads a STEP file.

    Raises:
        ValueError: the file isn't 7-bit text, or breaks the grammar, or states an instance twice.
    """
    raw = path.read_bytes()
    if not raw.isascii():
        msg = "not 7-bit text: other letters must be coded in a STEP file"
        raise ValueError(msg)
    return parse(raw.decode("ascii"))


def parse(text: str) -> Exchange:
    """Reads the text of a STEP file; errors as for `read`."""
    header: dict[str, Record] = {}
    instances: dict[int, tuple[Record, ...]] = {}
    statements: dict[int, str] = {}
    section = ""
    for statement in _statements(text):
        words = [token for _, token in statement]
        if len(words) == 1 and statement[0][0] == "keyword":
            section = _next_section(section, words[0])
        elif section == "HEADER":
            cursor = _Cursor(statement)
            record = cursor.record()
            cursor.end()
            header[record.keyword] = record
        elif section == "DATA":
            number, records = _instance(statement)
            if number in instances:
                msg = f"#{number} is stated twice"
                raise ValueError(msg)
            instances[number] = records
            statements[number] = "".join(words) + ";"
        else:
            msg = f"statement outside of a section: {' '.join(words)[:60]!r}"
            raise ValueError(msg)
    if section != "END-ISO-10303-21":
        msg = "no END-ISO-10303-21 at the end"
        raise ValueError(msg)
    return Exchange(header=header, instances=instances, statements=statements)


_FOLLOWS = {
    "": "ISO-10303-21",
    "ISO-10303-21": "HEADER",
    "HEADER": "ENDSEC",
    "ENDSEC": "DATA",
    "DATA": "ENDSEC of DATA",
    "ENDSEC of DATA": "END-ISO-10303-21",
}


def _next_section(section: str, word: str) -> str:
    following = _FOLLOWS.get(section, "")
    if not following or word != following.split()[0]:
        expected = following.split()[0] if following else "nothing"
        msg = f"found {word!r} after {section or 'the start'!r}, expected {expected!r}"
        raise ValueError(msg)
    return following


def _instance(statement: tuple[_Token, ...]) -> tuple[int, tuple[Record, ...]]:
    cursor = _Cursor(statement)
    kind, text = cursor.take()
    if kind != "ref":
        msg = f"expected an instance, found {cursor.shown()!r}"
        raise ValueError(msg)
    number = int(text[1:])
    cursor.expect("=")
    records: list[Record] = []
    if cursor.at("("):
        cursor.expect("(")
        while not cursor.at(")"):
            records.append(cursor.record())
        cursor.expect(")")
    else:
        records.append(cursor.record())
    cursor.end()
    return number, tuple(records)
