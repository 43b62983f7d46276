"""Builds a frame again from its design document, part by part, with geometry alone.

Nothing here knows how the plan was made: only where parts are, what they are made of, and the operations as they are
written. A part is tried at many places of its way; a fitting and the tubes that it holds are let pass each other.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from tubeframe.geometry.convex import Box
from tubeframe.joints.joint import ENOUGH

PACE = 12.0
"""A moving part is looked at every so often on its way [mm]."""
DEEP = 2.0
"""Parts may be this deep in each other [mm]."""
UPRIGHT = 0.97


@dataclass(frozen=True, kw_only=True)
class Solid:
    """A bar or a brick: its middle, its axes with half lengths, and a radius (0 for a brick) [mm]."""

    middle: np.ndarray
    axes: np.ndarray
    halves: np.ndarray
    radius: float

    def depth(self, points: np.ndarray, radii: np.ndarray) -> float:
        """Return how deep the deepest of some balls is in it [mm]."""
        local = (points - self.middle) @ self.axes.T
        if self.radius:
            along = np.maximum(np.abs(local[:, 0]) - self.halves[0], 0.0)
            across = np.maximum(np.hypot(local[:, 1], local[:, 2]) - self.radius, 0.0)
            gap = np.hypot(along, across)
        else:
            gap = np.linalg.norm(np.maximum(np.abs(local) - self.halves, 0.0), axis=1)
        return float((radii - gap).max())

    @property
    def reach(self) -> float:
        return float(np.linalg.norm(self.halves)) + self.radius


@dataclass(frozen=True, kw_only=True)
class Thing:
    """A part: its solids, and balls that fill it."""

    solids: tuple[Solid, ...]
    points: np.ndarray
    radii: np.ndarray
    middle: np.ndarray
    reach: float


@dataclass(kw_only=True)
class Told:
    """What went wrong, in the order in which it happened."""

    complaints: list[str] = field(default_factory=list)

    def say(self, step, text):
        self.complaints.append(f"step {step['number']}: {text}")


class Simulator:
    """One frame's parts, and its document."""

    def __init__(self, design, document):
        self.document = document
        self.tubes = {m["id"]: m for m in document["members"]}
        self.joints = {j["id"]: j for j in document["joints"]}
        self.panels = {p["id"]: p for p in document["panels"]}
        catalog = design.workshop.catalog
        self.outside = {p.id: catalog.tube(p.size).outside for p in design.parts.pieces}
        self.mass = {p.id: p.cut_length * catalog.tube(p.size).mass_per_length for p in design.parts.pieces}
        self.paths = {p.id: p.path for p in design.parts.pieces}
        self.things = {p.id: _tube(p.path, self.outside[p.id] / 2.0) for p in design.parts.pieces}
        self.things |= {str(j.id): _thing(j.body) for j in design.jointed.joints}
        self.things |= {p.id: _thing((p.box,)) for p in design.frame.panels}
        self.axes = {(str(j.id), u.port): np.array(tuple(u.axis)) for j in design.jointed.joints for u in j.uses}
        self.roles = {(str(j.id), u.port): u.role.value for j in design.jointed.joints for u in j.uses}
        self.split = {str(j.id): bool(j.fitting and j.fitting.kind.ears) for j in design.jointed.joints}
        self.walls = design.frame.walls
        self.floor = min(min(m["a_mm"][2], m["b_mm"][2]) for m in document["members"])
        self.resting: dict[tuple[str, str], bool] = {}

    def complaints(self):
        """Carry every step out, and return what went wrong."""
        told, seen, tight = Told(), Counter(), Counter()
        lying: dict[str, set[str]] = {}
        standing: set[str] = set()
        for step in self.document["steps"]:
            seen.update(o["part"] for o in step["operations"])
            if step["subframes"]:
                self._build_flat(told, step, lying)
            else:
                self._put_up(told, step, lying, standing)
            for joint in step["tightens"]:
                tight[joint] += 1
                self._tightened(told, step, joint, standing.union(*lying.values()))
        for part in (*self.tubes, *self.joints, *self.panels):
            if seen[part] != 1:
                told.complaints.append(f"{part} comes {seen[part]} times")
        for joint, data in self.joints.items():
            if data["bolts"] and tight[joint] != 1:
                told.complaints.append(f"{joint} is tightened {tight[joint]} times")
        if standing != {*self.tubes, *self.joints, *self.panels}:
            told.complaints.append("what stands in the end is not the whole frame")
        return told.complaints

    def _build_flat(self, told, step, lying):
        home = {m: s["id"] for s in self.document["subframes"] for m in s["members"]}
        for operation in step["operations"]:
            where = lying.setdefault(home[self._member_of(self._tube_of(operation))], set())
            self._come(told, step, operation, where, flat=True)
            where.add(operation["part"])
        for group in lying.values():
            self._hangs_together(told, step, group)

    def _put_up(self, told, step, lying, standing):
        raises = list(step["raises"])
        for n, operation in enumerate([*step["operations"], None]):
            while raises and (operation is None or raises[0]["after_operations"] <= n):
                raising = raises.pop(0)
                group = lying.pop(raising["subframe"], set())
                if not group:
                    told.say(step, f"{raising['subframe']} is not built")
                self._move(told, step, group, raising, standing, on_floor=True)
                standing |= group
            if operation is not None:
                self._come(told, step, operation, standing, flat=False)
                standing.add(operation["part"])
        self._hangs_together(told, step, standing)
        self._balance(told, step, standing)

    def _member_of(self, tube):
        names = {m for s in self.document["subframes"] for m in s["members"]}
        return tube if tube in names else tube.rsplit(".", 1)[0]

    def _tube_of(self, operation):
        """Return a tube that a part belongs to: itself, or one that a fitting is put on."""
        if operation["kind"] == "member":
            return operation["part"]
        ports = self.joints[operation["part"]]["ports"]
        return ports[operation["into"][0]["port"]]

    def _come(self, told, step, operation, there, *, flat):
        part, kind = operation["part"], operation["kind"]
        if abs(math.dist(operation["direction"], (0, 0, 0)) - 1.0) > 1e-5 or operation["distance_mm"] <= 0.0:
            told.say(step, f"{part} has no way")
        if kind == "joint":
            tubes = set(self.joints[part]["ports"].values())
            later = {o["part"] for o in step["operations"]}
            if not tubes & there:
                if not (len(tubes) == 1 and tubes <= later):
                    told.say(step, f"{part} is put on nothing")
                return
            self._ports(told, step, operation, {part}, there)
            self._move(told, step, {part}, operation, there, on_floor=not flat)
            return
        if kind == "member":
            carried = {j for j, d in self.joints.items() if set(d["ports"].values()) == {part} and j in there}
            self._ports(told, step, operation, {part}, there)
            self._move(told, step, {part, *carried}, operation, there - carried, on_floor=not flat)
            return
        self._move(told, step, {part}, operation, there, on_floor=True)

    def _ports(self, told, step, operation, moving, there):
        """Check that tubes go into ports along them, or through a mouth that is opened."""
        way = np.array(operation["direction"])
        named = {(e["joint"], e["port"]) for e in operation["into"]}
        for joint, data in self.joints.items():
            for port, tube in data["ports"].items():
                meets = (joint in moving and tube in there) or (tube in moving and joint in there)
                if not meets or len(set(data["ports"].values())) == 1:
                    continue
                if (joint, port) not in named:
                    told.say(step, f"{operation['part']} goes into {joint} {port} unnamed")
                along = float(way @ self.axes[joint, port]) * (1.0 if tube in moving else -1.0)
                straight = abs(along) > UPRIGHT if self.roles[joint, port] == "run" else along > UPRIGHT
                if not straight and not self.split[joint]:
                    told.say(step, f"{operation['part']} gets into {joint} {port} through its wall")
                if not straight and tube in moving and not operation["opens"] and joint not in _new(step):
                    told.say(step, f"{joint} {port} is shut when {tube} comes from the side")

    def _move(self, told, step, group, come, there, *, on_floor):
        """Try some parts at many places of their way against all that is there."""
        way, far = np.array(come["direction"]), come["distance_mm"]
        offs = np.linspace(far, 0.0, max(3, round(far / PACE)))[:, None] * way
        for part in sorted(group):
            thing = self.things[part]
            if not len(thing.points):
                continue
            for other in sorted(there - group):
                if self._are_partners(part, other) or self._rests_in(part, other):
                    continue
                against = self.things[other]
                if np.linalg.norm(thing.middle - against.middle) > thing.reach + against.reach + far:
                    continue
                points = (thing.points[None] + offs[:, None]).reshape(-1, 3)
                radii = np.tile(thing.radii, len(offs))
                if max((s.depth(points, radii) for s in against.solids), default=-1.0) > DEEP:
                    told.say(step, f"{part} runs into {other}")
            is_foot = part in self.joints and all(r == "end" for (j, _), r in self.roles.items() if j == part)
            if on_floor and not is_foot:
                low = float((thing.points[:, 2] - thing.radii).min())
                if low + min(0.0, float(far * way[2])) < min(0.0, self.floor, low) - 3 * DEEP and way[2] < 0.0:
                    told.say(step, f"{part} comes out of the floor")

    def _are_partners(self, one, other):
        for joint, tube in ((one, other), (other, one)):
            if joint in self.joints and tube in self.joints[joint]["ports"].values():
                return True
        return False

    def _rests_in(self, one, other):
        key = (min(one, other), max(one, other))
        if key not in self.resting:
            thing, against = self.things[one], self.things[other]
            back = max((s.depth(against.points, against.radii) for s in thing.solids), default=-1.0)
            deep = max((s.depth(thing.points, thing.radii) for s in against.solids), default=-1.0)
            self.resting[key] = max(deep, back) > DEEP / 2.0
        return self.resting[key]

    def _hangs_together(self, told, step, group):
        """Check that tubes and fittings are tied to each other; sub-frames side by side count while they are held."""
        tubes = [t for t in self.tubes if t in group]
        if not tubes:
            return
        reached, frontier = {tubes[0]}, [tubes[0]]
        while frontier:
            here = frontier.pop()
            for joint, data in self.joints.items():
                ports = set(data["ports"].values())
                if joint in group and here in ports:
                    fresh = (ports & group) - reached
                    reached |= fresh
                    frontier += sorted(fresh)
        for tube in tubes:
            if tube not in reached and step["raises"] == [] and not self._stands_on_floor(tube):
                told.say(step, f"{tube} floats")

    def _stands_on_floor(self, tube):
        member = self.tubes[tube]
        return min(member["a_mm"][2], member["b_mm"][2]) < self.floor + self.outside[tube]

    def _tightened(self, told, step, joint, there):
        missing = {joint, *self.joints[joint]["ports"].values()} - there
        if missing:
            told.say(step, f"{joint} is tightened without {sorted(missing)}")
        for bolt in self.joints[joint]["bolt_heads"]:
            if bolt["free_mm"] < ENOUGH or missing:
                continue  # out of reach in the finished frame too: a finding tells of it
            way, at = np.array(bolt["head"]), np.array(bolt["at_mm"])
            points = at + way * np.linspace(15.0, ENOUGH, 12)[:, None]
            radii = np.full(12, 1.0)
            own = {joint, *self.joints[joint]["ports"].values()}
            for other in sorted(there - own):
                if max((s.depth(points, radii) for s in self.things[other].solids), default=-1.0) > 0.0:
                    told.say(step, f"the key does not reach {joint}: {other}")

    def _balance(self, told, step, standing):
        """Check that the frame stands as it is said to, or that somebody holds it."""
        tubes = [t for t in self.tubes if t in standing]
        if not tubes:
            return
        held = any(o["held_by"] == "person" for o in (*step["operations"], *step["raises"]))
        anchored = any(
            self.tubes[t][e]["kind"] in {"stake", "base-flange", "swivel-base"}
            for t in tubes
            for e in ("end_a", "end_b")
        )
        feet = [
            m[e][:2]
            for t in tubes
            for m in (self.tubes[t],)
            for e in ("a_mm", "b_mm")
            if m[e][2] <= self.floor + self.outside[t] / 2.0 + 0.5
        ]
        stable = anchored or self._is_over(self._weight(tubes), feet)
        if step["stands"] and not stable:
            told.say(step, "it is said to stand, and does not")
        if not step["stands"] and not held and (step["operations"] or step["raises"]) and step["adds"]["members"]:
            told.say(step, "it falls, and nobody holds it")

    def _weight(self, tubes):
        total, whole = np.zeros(2), 0.0
        for tube in tubes:
            path = self.paths[tube]
            for n in range(8):
                point = path.point(path.length * (n + 0.5) / 8.0)
                total += np.array((point.x, point.y)) * self.mass[tube] / 8.0
                whole += self.mass[tube] / 8.0
        return total / whole

    @staticmethod
    def _is_over(point, feet):
        """Whether a point lies within some feet: seen from it, no half turn is without one."""
        turns = sorted(math.atan2(f[1] - point[1], f[0] - point[0]) for f in feet)
        if len(turns) < 3:
            return False
        gaps = [b - a for a, b in zip(turns, [*turns[1:], turns[0] + 2.0 * math.pi], strict=True)]
        return max(gaps) < math.pi


def _new(step):
    return {o["part"] for o in step["operations"] if o["kind"] == "joint"}


def _thing(solids):
    made, points, radii = [], [], []
    for solid in solids:
        bar = not isinstance(solid, Box)
        made.append(_bar(solid) if bar else _brick(solid))
        more = _balls_of_bar(solid) if bar else _balls_of_brick(made[-1])
        points.append(more[0])
        radii.append(more[1])
    return _whole(made, points, radii)


def _tube(path, radius):
    made, points, radii = [], [], []
    stretches = list(path.stretches())
    for _, piece in stretches:
        count = 1 if not hasattr(piece, "radius") else max(1, math.ceil(math.degrees(piece.angle) / 10.0))
        ends = [piece.point(piece.length * n / count) for n in range(count + 1)]
        for a, b in pairwise(ends):
            bar = _Bar(start=a, end=b, radius=radius)
            made.append(_bar(bar))
            more = _balls_of_bar(bar)
            points.append(more[0])
            radii.append(more[1])
    return _whole(made, points, radii)


@dataclass(frozen=True, kw_only=True)
class _Bar:
    start: object
    end: object
    radius: float


def _whole(made, points, radii):
    cloud = np.concatenate(points) if points else np.zeros((0, 3))
    middle = cloud.mean(axis=0) if len(cloud) else np.zeros(3)
    reach = max((float(np.linalg.norm(s.middle - middle)) + s.reach for s in made), default=0.0)
    return Thing(
        solids=tuple(made),
        points=cloud,
        radii=np.concatenate(radii) if radii else np.zeros(0),
        middle=middle,
        reach=reach,
    )


def _frame_of(axis):
    other = np.array((0.0, 0.0, 1.0)) if abs(axis[2]) < 0.9 else np.array((1.0, 0.0, 0.0))
    second = np.cross(axis, other)
    second /= np.linalg.norm(second)
    return np.array((axis, second, np.cross(axis, second)))


def _bar(solid):
    start, end = np.array(tuple(solid.start)), np.array(tuple(solid.end))
    length = float(np.linalg.norm(end - start))
    return Solid(
        middle=(start + end) / 2.0,
        axes=_frame_of((end - start) / length),
        halves=np.array((length / 2.0, 0.0, 0.0)),
        radius=solid.radius,
    )


def _brick(solid):
    halves = [np.array(tuple(h)) for h in (solid.half_x, solid.half_y, solid.half_z)]
    sizes = np.array([np.linalg.norm(h) for h in halves])
    axes = np.array([h / s for h, s in zip(halves, sizes, strict=True)])
    return Solid(middle=np.array(tuple(solid.centre)), axes=axes, halves=sizes, radius=0.0)


def _balls_of_bar(solid):
    start, end = np.array(tuple(solid.start)), np.array(tuple(solid.end))
    length = float(np.linalg.norm(end - start))
    inset = min(solid.radius, length / 2.0)
    at = np.linspace(inset, length - inset, max(2, round((length - 2 * inset) / PACE) + 1))
    return start + (end - start) / length * at[:, None], np.full(len(at), solid.radius)


def _balls_of_brick(brick):
    radius = float(brick.halves.min())
    rows = [
        np.linspace(-h + radius, h - radius, max(1, round(2 * (h - radius) / (4 * radius)) + 1)) for h in brick.halves
    ]
    rows = [r[:60] if len(r) > 60 else r for r in rows]
    grid = np.stack(np.meshgrid(*rows, indexing="ij"), axis=-1).reshape(-1, 3)
    return brick.middle + grid @ brick.axes, np.full(len(grid), radius)
