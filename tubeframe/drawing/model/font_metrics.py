"""How wide texts are: advance widths of DejaVu Sans, the font of every sheet.

The tables are the `hmtx` advances of `DejaVuSans.ttf` and `DejaVuSans-Bold.ttf` (version 2.35, 2048 units an em,
capitals 1493 units high) as matplotlib ships them. They were read once with fontTools: for each sign of `_SIGNS`,
`font["hmtx"][font.getBestCmap()[ord(sign)]][0]`; a test reads them again. Texts are set without kerning and
ligatures, so that a text is as wide as the sum of its signs.
"""

from __future__ import annotations

import re

UNITS_PER_EM = 2048.0
CAP_UNITS = 1493.0
"""Height of the capitals, 0.729 em."""

_SIGNS = (
    "".join(map(chr, range(0x20, 0x7F)))  # printable ASCII
    + "".join(map(chr, range(0xA0, 0x180)))  # Latin-1 and Latin Extended-A: signs, fractions, letters of European names
    + "–—‘’“”•…′″→−≤≥⌀"
)

# fmt: off
_REGULAR = (
    651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303, 1303,
    1303, 1303, 1303, 1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577, 1294, 1178,
    1587, 1540, 604, 604, 1343, 1141, 1767, 1532, 1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401, 2025, 1403, 1251,
    1403, 799, 690, 799, 1716, 1024, 1024, 1255, 1300, 1126, 1300, 1260, 721, 1300, 1298, 569, 569, 1186, 569, 1995,
    1298, 1253, 1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075, 1303, 690, 1303, 1716, 651, 821,
    1303, 1303, 1303, 1303, 690, 1024, 1024, 2048, 965, 1253, 1716, 739, 2048, 1024, 1024, 1716, 821, 821, 1024,
    1303, 1303, 651, 1024, 821, 965, 1253, 1985, 1985, 1985, 1087, 1401, 1401, 1401, 1401, 1401, 1401, 1995, 1430,
    1294, 1294, 1294, 1294, 604, 604, 604, 604, 1587, 1532, 1612, 1612, 1612, 1612, 1612, 1716, 1612, 1499, 1499,
    1499, 1499, 1251, 1239, 1290, 1255, 1255, 1255, 1255, 1255, 1255, 2011, 1126, 1260, 1260, 1260, 1260, 569, 569,
    569, 569, 1253, 1298, 1253, 1253, 1253, 1253, 1253, 1716, 1253, 1298, 1298, 1298, 1298, 1212, 1300, 1212, 1401,
    1255, 1401, 1255, 1401, 1255, 1430, 1126, 1430, 1126, 1430, 1126, 1430, 1126, 1577, 1300, 1587, 1300, 1294,
    1260, 1294, 1260, 1294, 1260, 1294, 1260, 1294, 1260, 1587, 1300, 1587, 1300, 1587, 1300, 1587, 1300, 1540,
    1298, 1876, 1423, 604, 569, 604, 569, 604, 569, 604, 569, 604, 569, 1208, 1138, 604, 569, 1343, 1186, 1186,
    1141, 569, 1141, 569, 1141, 768, 1141, 700, 1151, 582, 1532, 1298, 1532, 1298, 1532, 1298, 1666, 1532, 1298,
    1612, 1253, 1612, 1253, 1612, 1253, 2191, 2095, 1423, 842, 1423, 842, 1423, 842, 1300, 1067, 1300, 1067, 1300,
    1067, 1300, 1067, 1251, 803, 1251, 803, 1251, 803, 1499, 1298, 1499, 1298, 1499, 1298, 1499, 1298, 1499, 1298,
    1499, 1298, 2025, 1675, 1251, 1212, 1251, 1403, 1075, 1403, 1075, 1403, 1075, 721, 1024, 2048, 651, 651, 1061,
    1061, 1208, 2048, 465, 765, 1716, 1716, 1716, 1716, 1233,
)
_BOLD = (
    713, 934, 1067, 1716, 1425, 2052, 1786, 627, 936, 936, 1071, 1716, 778, 850, 778, 748, 1425, 1425, 1425, 1425,
    1425, 1425, 1425, 1425, 1425, 1425, 819, 819, 1716, 1716, 1716, 1188, 2048, 1585, 1561, 1503, 1700, 1399, 1399,
    1681, 1714, 762, 762, 1587, 1305, 2038, 1714, 1741, 1501, 1741, 1577, 1475, 1397, 1663, 1585, 2259, 1579, 1483,
    1485, 936, 748, 936, 1716, 1024, 1024, 1382, 1466, 1214, 1466, 1389, 891, 1466, 1458, 702, 702, 1362, 702, 2134,
    1458, 1407, 1466, 1466, 1010, 1219, 979, 1458, 1335, 1892, 1321, 1335, 1192, 1458, 748, 1458, 1716, 713, 934,
    1425, 1425, 1303, 1425, 748, 1024, 1024, 2048, 1155, 1323, 1716, 850, 2048, 1024, 1024, 1716, 897, 897, 1024,
    1507, 1303, 778, 1024, 897, 1155, 1323, 2120, 2120, 2120, 1188, 1585, 1585, 1585, 1585, 1585, 1585, 2222, 1503,
    1399, 1399, 1399, 1399, 762, 762, 762, 762, 1716, 1714, 1741, 1741, 1741, 1741, 1741, 1716, 1741, 1663, 1663,
    1663, 1663, 1483, 1511, 1473, 1382, 1382, 1382, 1382, 1382, 1382, 2146, 1214, 1389, 1389, 1389, 1389, 702, 702,
    702, 702, 1407, 1458, 1407, 1407, 1407, 1407, 1407, 1716, 1407, 1458, 1458, 1458, 1458, 1335, 1466, 1335, 1585,
    1382, 1585, 1382, 1585, 1382, 1503, 1214, 1503, 1214, 1503, 1214, 1503, 1214, 1700, 1466, 1716, 1466, 1399,
    1389, 1399, 1389, 1399, 1389, 1399, 1389, 1399, 1389, 1681, 1466, 1681, 1466, 1681, 1466, 1681, 1466, 1714,
    1458, 1994, 1618, 762, 702, 762, 702, 762, 702, 762, 702, 762, 702, 1524, 1404, 762, 702, 1587, 1362, 1362,
    1305, 702, 1305, 702, 1305, 982, 1305, 1140, 1315, 760, 1714, 1458, 1714, 1458, 1714, 1458, 2013, 1714, 1458,
    1741, 1407, 1741, 1407, 1741, 1407, 2390, 2241, 1577, 1010, 1577, 1010, 1577, 1010, 1475, 1219, 1475, 1219,
    1475, 1219, 1475, 1219, 1397, 979, 1397, 979, 1397, 979, 1663, 1458, 1663, 1458, 1663, 1458, 1663, 1458, 1663,
    1458, 1663, 1458, 2259, 1892, 1483, 1335, 1483, 1485, 1192, 1485, 1192, 1485, 1192, 891, 1024, 2048, 778, 778,
    1346, 1346, 1309, 2048, 540, 915, 1716, 1716, 1716, 1716, 1233,
)
# fmt: on

_COUNT = re.compile(r"\b(\d+) x ([A-Za-z])")
"""A number of parts and their mark stay on one line."""
_NO_SIGN = 1229
"""The box of both fonts that stands for a missing sign; taken for every sign that is not in the table."""


class _Widths(dict[str, int]):
    """Advances of signs."""

    def __missing__(self, sign: str) -> int:
        return _NO_SIGN


_WIDTHS = {False: _Widths(zip(_SIGNS, _REGULAR, strict=True)), True: _Widths(zip(_SIGNS, _BOLD, strict=True))}


def em_size(cap_height: float) -> float:
    """Return the font size [mm] whose capitals have a height [mm]."""
    return cap_height * UNITS_PER_EM / CAP_UNITS


def text_width(text: str, cap_height: float, *, bold: bool = False) -> float:
    """Return the width of one line of text [mm] set with capitals of a height [mm]."""
    return sum(map(_WIDTHS[bold].__getitem__, text)) * cap_height / CAP_UNITS


def wrap(text: str, width: float, cap_height: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines no wider than a width [mm]; an empty text gives none.

    Lines are broken at spaces and where the text has a line break; a word wider than a line is cut.
    """
    return tuple(line for part in text.splitlines() for line in _filled(part, width, cap_height, bold=bold))


def _filled(text: str, width: float, cap_height: float, *, bold: bool) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in _COUNT.sub("\\1\u00a0x\u00a0\\2", text).split(" "):
        if not word:
            continue
        longer = f"{line} {word}" if line else word
        if text_width(longer, cap_height, bold=bold) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        *full, line = _cut(word, width, cap_height, bold=bold)
        lines += full
    return [shown.replace("\u00a0", " ") for shown in ([*lines, line] if line else lines)]


def _cut(word: str, width: float, cap_height: float, *, bold: bool) -> list[str]:
    """Cut a word into parts as long as a line takes, of at least one sign each."""
    parts = [""]
    for sign in word:
        if parts[-1] and text_width(parts[-1] + sign, cap_height, bold=bold) > width:
            parts.append("")
        parts[-1] += sign
    return parts
