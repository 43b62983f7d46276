"""Frames that no template makes, drawn within their limits: each maker takes numbers between 0 and 1."""

from __future__ import annotations

import math

OFFSET = 23.4188 + 4.7625
"""Of a coupler on EMT 3/4: D + 3/16 in [mm]."""


def between(share, low, high):
    """Return a length between two [mm], whole."""
    return round(low + (high - low) * share)


def sawhorse(a, b, c, d):
    """Splayed legs that pass each other on the top, and a stretcher on each side."""
    height, length = between(a, 600, 1000), between(b, 800, 1500)
    splay, low = math.radians(between(c, 10, 20)), between(d, 200, 300)
    out, apart = height * math.tan(splay), 70

    def leg(name, x, side):
        return {"id": name, "path": [[x, side * out, 4], [x, 0, height]], "ends": ["open", "joint"]}

    def stretcher(name, x, x2, side):
        y = side * out * (1 - (low - 4) / (height - 4))
        return {"id": name, "path": [[x, y, low], [x2, y, low]]}

    return [
        {"id": "top", "path": [[0, 0, height], [length, 0, height]], "ends": ["cap", "cap"]},
        leg("leg.1.front", 120, -1),
        leg("leg.1.back", 120 + apart, 1),
        leg("leg.2.front", length - 120 - apart, -1),
        leg("leg.2.back", length - 120, 1),
        stretcher("stretcher.front", 120, length - 120 - apart, -1),
        stretcher("stretcher.back", 120 + apart, length - 120, 1),
    ]


def sign_stand(a, b, c, d):
    """Two posts, each on four feet, and two bars."""
    wide, tall = between(a, 500, 1200), between(b, 1000, 2000)
    arm, foot = between(c, 200, 400), between(d, 100, 160)
    rows = []
    for name, x in (("left", 0), ("right", wide)):
        rows.append({"id": f"post.{name}", "path": [[x, 0, 0], [x, 0, tall]]})
        for side, y in (("front", -arm), ("back", arm)):
            rows.append({"id": f"arm.{name}.{side}", "path": [[x, 0, foot], [x, y, foot]]})
            rows.append({"id": f"toe.{name}.{side}", "path": [[x, y, 0], [x, y, foot]]})
    rows += [
        {"id": f"bar.{n}", "path": [[0, 0, z], [wide, 0, z]]} for n, z in (("low", tall // 3), ("high", tall - 80))
    ]
    return rows


def ladder(a, b, c, d):
    """Two stiles and some rungs."""
    wide, pitch = between(a, 300, 600), between(b, 250, 350)
    rungs = 3 + between(c, 0, 4)
    tall = pitch * rungs + between(d, 100, 250)
    rows = [{"id": f"stile.{n}", "path": [[x, 0, 0], [x, 0, tall]]} for n, x in (("left", 0), ("right", wide))]
    return rows + [{"id": f"rung.{k}", "path": [[0, 0, pitch * k], [wide, 0, pitch * k]]} for k in range(1, rungs + 1)]


def laid_over_rack(a, b, c, d):
    """Posts tied by couplers: rails run over them, and bars over the rails."""
    long, wide, tall = between(a, 800, 1800), between(b, 500, 900), between(c, 600, 1100)
    bars = 2 + between(d, 0, 3)
    rows = []
    for x in (0, long):
        ends = ["foot", "cap"]
        rows += [{"id": f"post.{x}.{y}", "path": [[x, y, 0], [x, y, tall]], "ends": ends} for y in (0, wide)]
        rows.append({"id": f"tie.{x}", "path": [[x, 0, 150], [x, wide, 150]]})
    for y, out in ((0, -OFFSET), (wide, OFFSET)):
        for z in (300, tall - 120):
            path = [[-80, y + out, z], [long + 80, y + out, z]]
            rows.append({"id": f"rail.{y}.{z}", "path": path, "ends": ["cap", "cap"]})
    top = tall - 120 + OFFSET
    for k in range(bars):
        x = 100 + (long - 200) * k / max(1, bars - 1)
        path = [[x, -OFFSET - 80, top], [x, wide + OFFSET + 80, top]]
        rows.append({"id": f"bar.{k}", "path": path, "ends": ["cap", "cap"]})
    return rows


def two_sizes(a, b, c, d):
    """Thick posts in two frames, thin rails between them."""
    long, wide, tall = between(a, 700, 1600), between(b, 400, 800), between(c, 800, 1500)
    levels = 1 + between(d, 0, 3)
    rows = []
    for x in (0, long):
        rows += [{"id": f"post.{x}.{y}", "tube": "emt-1", "path": [[x, y, 0], [x, y, tall]]} for y in (0, wide)]
    for k in range(levels):
        z = 150 + (tall - 300) * k / max(1, levels)
        rows += [{"id": f"long.{k}.{y}", "path": [[0, y, z], [long, y, z]]} for y in (0, wide)]
        rows += [{"id": f"short.{k}.{x}", "path": [[x, 0, z + 90], [x, wide, z + 90]]} for x in (0, long)]
    return rows


MAKERS = (sawhorse, sign_stand, ladder, laid_over_rack, two_sizes)
