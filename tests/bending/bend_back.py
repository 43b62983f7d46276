"""A bender of its own: from an entry of `bending[]` alone it bends a line in space. Nothing of the package is used."""

from __future__ import annotations

import numpy as np

OUTSIDE = 0.922 * 25.4
"""EMT 3/4 (Steel Tube Institute, table 'EMT Weights and Dimensions') [mm]."""


def turned(vector, axis, angle):
    """Turn a vector about a unit axis (Rodrigues' rotation)."""
    return (
        vector * np.cos(angle) + np.cross(axis, vector) * np.sin(angle) + axis * (axis @ vector) * (1.0 - np.cos(angle))
    )


def start_of(bend):
    """Return where a bend begins, seen from the rough end A [mm]."""
    length = bend["radius_mm"] * np.radians(bend["angle_deg"])
    along = {"notch": length / 2, "star": bend["radius_mm"] + OUTSIDE / 2}.get(bend["mark"], 0.0)
    return bend["arrow_mm"] - (length - along if bend["hook"] == "B" else along)


def point_at(entry, at, made):
    """Return where a place of the rough tube is [mm] when only some of its bends, by number from 0, are made."""
    place, way, line, fed = np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([1.0, 0.0, 0.0]), 0.0
    for bend in (entry["bends"][n] for n in sorted(made)):
        start, angle, radius = start_of(bend), np.radians(bend["angle_deg"]), bend["radius_mm"]
        if at <= start:
            break
        place, fed = place + way * (start - fed), start
        inside, turn = turned(line, way, np.radians(bend["roll_deg"])), min(at - start, radius * angle) / radius
        axis, centre = np.cross(way, inside), place + inside * radius
        place = centre + turned(place - centre, axis, turn)
        way, line, fed = turned(way, axis, turn), turned(line, axis, turn), start + radius * turn
    return place + way * (at - fed)


def bent(entry):
    """Bend a straight tube along z, its line toward x; return the corners of the piece as trimmed, ends among them."""
    place, way, line, fed = np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([1.0, 0.0, 0.0]), 0.0
    corners = [place + way * entry["trim_a_mm"]]
    for bend in entry["bends"]:
        angle, radius, start = np.radians(bend["angle_deg"]), bend["radius_mm"], start_of(bend)
        place, fed = place + way * (start - fed), start + radius * angle
        inside = turned(line, way, np.radians(bend["roll_deg"]))
        corners.append(place + way * radius * np.tan(angle / 2.0))
        axis = np.cross(way, inside)
        centre = place + inside * radius
        place = centre + turned(place - centre, axis, angle)
        way, line = turned(way, axis, angle), turned(line, axis, angle)
    corners.append(place + way * (entry["rough_length_mm"] - entry["trim_b_mm"] - fed))
    return np.array(corners)


def laid(corners, points):
    """Lay corners on points without mirroring: the first, the way to the second, the side of the third."""
    (here, own), (there, other) = (_frame(np.asarray(p, float)) for p in (corners, points))
    return (np.asarray(corners) - here) @ own @ other.T + there


def missed(entry, points, step):
    """Return how far the farthest corner of a bent piece is off the points it should reach [mm].

    What a tape cannot show of the cut length, up to one `step`, is missing at end B.
    """
    found = laid(bent(entry), points)
    last = found[-1] - found[-2]
    short = np.linalg.norm(np.asarray(points[-1]) - points[-2]) - np.linalg.norm(last)
    if not -0.01 <= short <= step:
        return abs(short)
    found[-1] += last / np.linalg.norm(last) * short
    return float(np.linalg.norm(found - np.asarray(points), axis=1).max())


def _frame(points):
    x = points[1] - points[0]
    x = x / np.linalg.norm(x)
    y = points[2] - points[0]
    y = y - x * (x @ y)
    y = y / np.linalg.norm(y)
    return points[0], np.column_stack([x, y, np.cross(x, y)])
