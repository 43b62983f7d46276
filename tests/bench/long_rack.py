"""A rack as a text frame that goes on as long as one likes, of tubes that sticks give: 54 more a group of bays."""

from __future__ import annotations

_BAYS, _BAY, _DEPTH = 8, 350.0, 500.0
_OUT = 23.4188 + 4.7625
"""Offset of a coupler on EMT 3/4: D + 3/16 in [mm]."""


def long_rack(groups: int) -> str:
    """Return the text of a rack of groups of eight bays; its rails are joined by sleeves from group to group."""
    bays = _BAYS * groups
    rows = ['schema = "tubeframe.frame/1"', 'name = "long rack"', 'units = "mm"', 'tube = "emt-3/4"']
    for i in range(bays + 1):
        x = _BAY * i
        for side, y in (("front", 0.0), ("back", _DEPTH)):
            rows += _member(f"post-{i}-{side}", (x, y, 0.0), (x, y, 1800.0), ("foot", "cap"))
        for level, z in enumerate((200.0, 900.0, 1600.0)):
            rows += _member(f"tie-{i}-{level}", (x, 0.0, z), (x, _DEPTH, z), ("joint", "joint"))
        rows += _member(f"brace-{i}", (x + _OUT, -60.0, 367.0), (x + _OUT, 560.0, 863.0), ("cap", "cap"))
    cuts = [-60.0, *(_BAYS * _BAY * g + _BAY / 2.0 for g in range(1, groups)), _BAY * bays + 60.0]
    for side, y in (("front", -_OUT), ("back", _DEPTH + _OUT)):
        for level, z in enumerate((300.0, 1000.0, 1500.0)):
            for n in range(groups):
                ends = ("joint" if n else "cap", "joint" if n + 1 < groups else "cap")
                rows += _member(f"rail-{side}-{level}-{n}", (cuts[n], y, z), (cuts[n + 1], y, z), ends)
    return "\n".join(rows)


def _member(
    name: str, start: tuple[float, float, float], end: tuple[float, float, float], ends: tuple[str, str]
) -> list[str]:
    path = ", ".join(f"[{x:.4f}, {y:.4f}, {z:.4f}]" for x, y, z in (start, end))
    return ["", "[[member]]", f'id = "{name}"', f"path = [{path}]", f'ends = ["{ends[0]}", "{ends[1]}"]']
