"""Small faults to be planted in the code, one at a time: each has to be seen by a test."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Mutation:
    """One fault: in a file of the package, a text that stands there once is put for another."""

    file: str
    old: str
    new: str
    name: str


def _in(file: str, *rows: tuple[str, str, str]) -> tuple[Mutation, ...]:
    return tuple(Mutation(file=f"tubeframe/{file}", name=name, old=old, new=new) for name, old, new in rows)


MUTATIONS = (
    *_in(
        "catalog/rules.py",
        ("overhang without what goes on past the grip", "return held + beyond", "return held"),
        ("no gap for the key in a pitch", "return first + second + tool_gap", "return first + second"),
        ("no clearance off a bend", "return held + BEND_CLEARANCE", "return held"),
        ("bender's length forgotten", "max(_LEAST_ALLOWANCE, held - max(straight, 0.0))", "_LEAST_ALLOWANCE"),
        (
            "allowance at B from the wrong bend",
            "bend_allowance(cut.length - last - other.length,",
            "bend_allowance(cut.length - last,",
        ),
        (
            "stick's length without the allowances",
            "cut_rounded(length, units) + sum(allowances)",
            "cut_rounded(length, units)",
        ),
        (
            "a piece has to be shorter than its stick",
            "return stick_length <= usable + _ROUNDING",
            "return stick_length < usable - 1.0",
        ),
        ("a sleeve's half taken for its whole", "return off_bend(sleeve / 2.0)", "return off_bend(sleeve / 4.0)"),
        ("stubs are left", "LEAST_PART = 12.0 * INCH_MM", "LEAST_PART = 0.0"),
    ),
    *_in(
        "joints/check.py",
        (
            "end pieces need a key",
            "gap = 0.0 if a.joint.is_end_piece or b.joint.is_end_piece else workshop.tool_gap",
            "gap = workshop.tool_gap",
        ),
        ("caps told as clamps on bends", "if zone.joint.is_end_piece or rules", "if rules"),
        (
            "clamps on any arc",
            "rules.takes_fitting(bend.radius, zone.high - zone.low)",
            "rules.takes_fitting(bend.radius, 0.0)",
        ),
        (
            "the far side of a bend forgotten",
            "max(start - zone.at, zone.at - start - bend.length)",
            "max(start - zone.at, zone.at - start)",
        ),
        ("overhang at end B unseen", "(TubeEnd.B, tube.end_b, length, -1.0)", "(TubeEnd.B, tube.end_b, length, 1.0)"),
        (
            "overhang told where a fitting takes the end",
            "if kind is not EndKind.JOINT and over < least - _ROUNDING:",
            "if over < least - _ROUNDING:",
        ),
        ("the ground holds nothing", "if holds + grounded < 2 and", "if holds < 2 and"),
        ("short tubes unseen", "if left < rules.LEAST_CUT:", "if left < -1e9:"),
        (
            "what the second fitting holds forgotten",
            "rules.pitch(a.held, b.held, gap)",
            "rules.pitch(a.held, 0.0, gap)",
        ),
    ),
    *_in(
        "joints/fouling.py",
        ("fouling near a joint unseen", "_AROUND = 2.0", "_AROUND = 6.0"),
        ("only tubes deep in each other foul", "if gap < least - COUPLER_MM and all(", "if gap < least / 2.0 and all("),
        ("fouling of tied tubes unseen", "all(at.distance(t) > _AROUND * least for t in tied)", "not tied"),
    ),
    *_in(
        "joints/bodies.py",
        ("bodies on one tube told twice", "if not _is_told_as_pitch(a, b, tool_gap):", "if True:"),
        (
            "a tube in its own fitting told",
            "if any(member_of[u.tube] == tube.member for u in joint.uses):",
            "if False:",
        ),
        ("tubes in fittings unseen", "deep = thing.depth(fittings[number], TOUCH_MM)", "deep = 0.0"),
        (
            "thin shells do not give",
            "return joint.fitting.end_shell if joint.fitting and joint.is_end_piece else 0.0",
            "return 0.0",
        ),
    ),
    *_in(
        "joints/things.py",
        ("pockets forgotten", "over = [p.high.z for p in panel.pockets if", "over = [0.0 for p in panel.pockets if"),
        (
            "tubes taken uncut",
            "return tube.path.part(off.get(TubeEnd.A, 0.0), tube.path.length - off.get(TubeEnd.B, 0.0))",
            "return tube.path",
        ),
        (
            "tubes half as thick",
            "radius=outside / 2.0) for s in chorded(path)",
            "radius=outside / 4.0) for s in chorded(path)",
        ),
    ),
    *_in(
        "joints/boards.py",
        (
            "fittings in boards unseen",
            "if short := _short(panel, board, things.fittings[k], TOUCH_MM):",
            "if (short := 0.0):",
        ),
        ("tubes in boards unseen", "if short := _short(panel, board, capped[k], COUPLER_MM):", "if (short := 0.0):"),
        ("boards in boards unseen", "        if deep:\n            names", "        if False:\n            names"),
        ("floating boards unseen", "if panel.id not in carried:", "if False:"),
    ),
    *_in(
        "joints/ground.py",
        ("feet off the floor unseen", "if abs(point.z) > COUPLER_MM:", "if False:"),
        ("sloped feet unseen", "elif lean > ANGLE_DEG:", "elif lean > 89.0:"),
        ("tubes below the floor unseen", "        if deep > COUPLER_MM:", "        if deep > 1e6:"),
        (
            "shells below the floor unseen",
            "if deep > TOUCH_MM and not joint.is_end_piece and",
            "if deep > 1e6 and not joint.is_end_piece and",
        ),
        (
            "walls looked at from behind",
            "deep = max((-wall.gap(farthest(p, -wall.toward))",
            "deep = max((wall.gap(farthest(p, -wall.toward))",
        ),
        (
            "a flange on a wall is told",
            "abs(w.gap(point)) <= COUPLER_MM and angle_deg(w.toward, up) <= ANGLE_DEG for w in frame.walls",
            "False for w in frame.walls",
        ),
    ),
    *_in(
        "joints/meet.py",
        (
            "couplers taken at any distance",
            "if abs(near.distance - offset) <= COUPLER_MM:",
            "if near.distance <= offset + COUPLER_MM:",
        ),
        ("two runs through one point unseen", "if near.distance <= MEET_MM:", "if near.distance < 0.0:"),
        (
            "an end of a run is a run",
            "if at >= member.path.length - MEET_MM and member.end_b is EndKind.JOINT:",
            "if False:",
        ),
        (
            "branch at B looks the wrong way",
            "way=member.path.tangent(0.0) if at_a else -member.path.tangent(length),",
            "way=member.path.tangent(0.0) if at_a else member.path.tangent(length),",
        ),
        (
            "loose ends unseen at B",
            "        if kind is EndKind.JOINT and (m.id, end) not in taken",
            "        if kind is EndKind.JOINT and end is TubeEnd.A and (m.id, end) not in taken",
        ),
        ("a coupler's node at one tube", "Node(at=(a.point + b.point) * 0.5,", "Node(at=a.point,"),
        (
            "wishes at free places lost",
            "        if found:\n            yield Node(at=wish.at",
            "        if False:\n            yield Node(at=wish.at",
        ),
    ),
    *_in(
        "joints/select.py",
        (
            "angles within ten degrees taken",
            "fits = all(angle_deg(turn.direction(local), axis) <= ANGLE_DEG",
            "fits = all(angle_deg(turn.direction(local), axis) <= 10.0",
        ),
        ("swings without a limit", "return angle if swing[0] <= angle <= swing[1] else None", "return angle"),
        ("wishes not heard", "names = asked or [name", "names = [name"),
        (
            "runs only one way round",
            "senses in product((1.0, -1.0), repeat=len(runs))",
            "senses in product((1.0,), repeat=len(runs))",
        ),
        (
            "a coupler's side forgotten",
            "    return [*pairs, (LIFT, gap.unit)] if gap.length > TINY else pairs",
            "    return pairs",
        ),
        (
            "dearest taken for cheapest",
            "cheapest = min(known, key=known.__getitem__)",
            "cheapest = max(known, key=known.__getitem__)",
        ),
    ),
    *_in(
        "joints/resolve.py",
        ("prices heard unasked", "asked = price if workshop.prefer is Prefer.CHEAPEST else None", "asked = price"),
        (
            "a fitting put at its joint's middle",
            "replace(match.turn, origin=match.held[0][1].point)",
            "replace(match.turn, origin=node.at)",
        ),
        ("refused wishes not told", "if kind in refused:", "if False:"),
    ),
    *_in(
        "joints/split.py",
        (
            "feet not taken off before a split",
            "start = first.taken_off if first and member.end_a.shortens else 0.0",
            "start = 0.0",
        ),
        ("setback at B not taken off before a split", "end = length - joint.setback(use)", "end = length"),
        ("sleeves in one row", "from_b=twins % 2 == 1", "from_b=False"),
        (
            "a sleeve's station from end B",
            "ends = ((-way, number, TubeEnd.B, at - low),",
            "ends = ((-way, number, TubeEnd.B, 0.0),",
        ),
        ("fittings after a split keep their old station", "shift = cuts[number - 1] if number else 0.0", "shift = 0.0"),
        (
            "sleeves may sit on bends",
            "    blocked += [(at - clear, at + bend.length + clear) for at, bend in tight]\n",
            "",
        ),
        ("sleeves may sit on clamps", "rules.sleeve_off_fitting(joint.held(use), sleeve, workshop.tool_gap)", "0.0"),
    ),
    *_in(
        "joints/sleeve_places.py",
        ("stated places as stated twice", "elif kept and at - kept[-1] < line.apart - TINY:", "elif False:"),
        ("stated places in the way untold", "            if not line.is_clear(at):", "            if False:"),
        (
            "stated parts too long untold",
            "        if not line.comes_out_of_a_stick(low, high, units)\n    ]\n    told",
            "        if False\n    ]\n    told",
        ),
        ("quarter points from the first fitting only", "for share in (0.25, 0.75)]", "for share in (0.0,)]"),
    ),
    *_in(
        "joints/joint.py",
        ("setback counted to the grip's end", "return port.setback + port.grip", "return port.grip"),
        (
            "caps shorten tubes",
            "return self.fitting.taken_off if self.fitting and end.shortens else 0.0",
            "return self.fitting.taken_off if self.fitting else 0.0",
        ),
    ),
    *_in(
        "joints/bearing.py",
        ("a bearing counted from the cut end", "start = offset + at", "start = at"),
        ("boards carried over any gap", "(level - PLANE_MM, level + PLANE_MM)", "(level - 100.0, level + 100.0)"),
    ),
    *_in(
        "joints/keys.py",
        (
            "heads on the worse side",
            "free, _, head = max(sides, key=lambda side: side[:2])",
            "free, _, head = min(sides, key=lambda side: side[:2])",
        ),
        ("first way of turning kept", "        if hardship < least:", "        if False:"),
    ),
    *_in(
        "parts/cut.py",
        ("end A's setback taken for B's", "tube.path.length - back[TubeEnd.B])", "tube.path.length - back[TubeEnd.A])"),
        (
            "stations from the node, not the cut end",
            "replace(use, at=use.at - back[TubeEnd.A])",
            "replace(use, at=use.at)",
        ),
        (
            "A is the higher end",
            "if tube.path.end.z >= tube.path.start.z - LOWER_MM:",
            "if tube.path.end.z <= tube.path.start.z + LOWER_MM:",
        ),
        (
            "ends swapped, stations not",
            "replace(use, at=length - use.at, end=use.end.other if use.end else None)",
            "replace(use, at=use.at, end=use.end.other if use.end else None)",
        ),
        ("a run's sense forgotten", "sense=1 if use.axis.dot(path.tangent(use.at)) > 0.0 else -1,", "sense=1,"),
        ("turns not counted from the first bend", "return path.bends[0][1].inward", "return -path.bends[0][1].inward"),
        ("allowances swapped", "spare_a, spare_b = bend_allowances(", "spare_b, spare_a = bend_allowances("),
        ("stations in no order", "        key=lambda pair: pair[0].at,", "        key=lambda pair: -pair[0].at,"),
    ),
    *_in(
        "parts/marks.py",
        (
            "mirror images are one mark",
            "((Hand.LEFT, known), (Hand.RIGHT, known.mirrored()))",
            "((Hand.LEFT, known), (Hand.LEFT, known.mirrored()))",
        ),
        ("left and right not written", "shown = hand if len(hands) > 1 else Hand.NONE", "shown = Hand.NONE"),
        ("a swapped piece is not reversed", "            return True, hand", "            return False, hand"),
        ("turns of a swapped piece not turned", "(last[3] - roll) % 360.0", "roll"),
        ("a swapped bend starts at its end", "self.length - at - arc, angle", "self.length - at, angle"),
        (
            "ends of a piece do not count",
            "(self.size, self.ends, len(self.marks)) == (other.size, other.ends, len(other.marks))",
            "(self.size, len(self.marks)) == (other.size, len(other.marks))",
        ),
        ("shortest first", "-round(f[0][0].cut_length / SAME_LENGTH_MM)", "round(f[0][0].cut_length / SAME_LENGTH_MM)"),
        ("turns do not count in a mark", "and min(turn, 360.0 - turn) <= SAME_TURN_DEG", "and True"),
        (
            "pockets do not count in a board's mark",
            "(panel.use, panel.material, panel.pockets, *",
            "(panel.use, panel.material, *",
        ),
    ),
    *_in(
        "parts/piece.py",
        (
            "rough length without its allowance at B",
            "return self.cut_rounded + self.allowance_a + self.allowance_b",
            "return self.cut_rounded + self.allowance_a",
        ),
    ),
    *_in(
        "parts/turns.py",
        (
            "turns not carried through bends",
            "reference = rotated(reference, bend.axis, turn)",
            "reference = rotated(reference, bend.axis, 0.0)",
        ),
        ("a bend's turn is nothing", "radius=bend.radius, roll=roll)", "radius=bend.radius, roll=0.0)"),
    ),
    *_in(
        "fabrication/bending/sheet.py",
        (
            "trim at end B without the round-off",
            "trim_b=rough - trim_a - piece.cut_rounded,",
            "trim_b=trim_a,",
        ),
        ("trim at end B is nothing", "trim_b=rough - trim_a - piece.cut_rounded,", "trim_b=0.0,"),
    ),
    *_in(
        "fabrication/bending/marks.py",
        ("bends from the cut end on the rough tube", "[trim_a + bend.start_from_a for", "[bend.start_from_a for"),
        ("a mark's turn lost", "roll=bend.roll,", "roll=0.0,"),
        ("a hook toward B marked at the bend's start", "else bend.length - along", "else along"),
    ),
    *_in(
        "geometry/flatness.py",
        (
            "tolerance of a plane a hundred times wider",
            "<= PLANE_MM\n        for p in",
            "<= 100.0 * PLANE_MM\n        for p in",
        ),
        (
            "tolerance of a plane a hundred times less",
            "<= PLANE_MM\n        for p in",
            "<= 0.01 * PLANE_MM\n        for p in",
        ),
    ),
    *_in(
        "assembly/subframes.py",
        ("two tubes are a sub-frame", "_LEAST = 3", "_LEAST = 2"),
        ("smallest first", "best = max(groups, key=lambda g: g.key)", "best = min(groups, key=lambda g: g.key)"),
        (
            "bent in two planes yet flat",
            "for m in frame.members if not m.is_straight and is_flat(m.path)]",
            "for m in frame.members if not m.is_straight]",
        ),
    ),
    *_in(
        "fabrication/buying.py",
        ("on hand not taken off", "quantity=max(0, -have),", "quantity=9,"),
        ("a surplus does not cover the spare", "spare=max(0, _SPARE - max(0, have)),", "spare=_SPARE,"),
        ("sticks in the garage are bought", "for s in plan.sticks if not s.on_hand)", "for s in plan.sticks)"),
        (
            "a price for one taken for all",
            "known = [p.price * (p.quantity + p.spare) for p in purchases",
            "known = [p.price for p in purchases",
        ),
    ),
    *_in(
        "assembly/diagonals.py",
        (
            "a diagonal along a side",
            "one.path.point(low).distance(other.path.point(high))",
            "one.path.point(low).distance(other.path.point(low))",
        ),
        (
            "a floor's diagonal without its width",
            "return Vec(width, length, 0.0).length",
            "return Vec(0.0, length, 0.0).length",
        ),
    ),
    *_in(
        "fabrication/stakes.py",
        ("a rod goes on into the bend", "else -BEND_CLEARANCE)", "else 1000.0)"),
        ("a rod goes up an arc as far as its bore is wide", "(bore - rod) / 2.0", "(bore - rod)"),
    ),
    *_in(
        "fabrication/cutting/plan.py",
        ("kerf not in the drawn stick", "at + self.kerf + length", "at + length"),
    ),
    *_in(
        "drawing/full_size/marking_strips.py",
        (
            "a strip's stations from end B",
            "ends = (station.from_a - half, station.from_a + half)",
            "ends = (piece.cut_length - station.from_a - half, piece.cut_length - station.from_a + half)",
        ),
        (
            "a strip's ticks from end B",
            "found = [tick(s.from_a, STATION_PAST,",
            "found = [tick(piece.cut_length - s.from_a, STATION_PAST,",
        ),
    ),
    *_in(
        "drawing/exploded/guides.py",
        (
            "a guide to the fitting's first port",
            "end=meeting(joint, entry.port) + offsets.get(other, ORIGIN),",
            "end=meeting(joint, joint.uses[0].port) + offsets.get(other, ORIGIN),",
        ),
        ("a guide to the fitting's middle", "sized.middle + sized.axis * sized.setback", "sized.middle"),
    ),
    *_in(
        "drawing/exploded/offsets.py",
        (
            "new tubes drawn where they stand",
            "return self._aside(operation, base) * self._apart",
            "return ORIGIN",
        ),
    ),
    *_in(
        "drawing/exploded/stages.py",
        (
            "what lies on the floor is drawn as standing",
            "raised = {r.sub_frame: built[r.sub_frame] for r in step.raises}",
            "raised = built",
        ),
    ),
    *_in(
        "assembly/lying.py",
        ("open mouths down on the floor", "return out if sum(", "return -out if sum("),
    ),
    *_in(
        "assembly/diagonals.py",
        (
            "a diagonal from a fitting that is not there yet",
            "joints = {j.id: j for j in jointed.joints if here is None or j.id in here}",
            "joints = {j.id: j for j in jointed.joints}",
        ),
    ),
    *_in(
        "drawing/sheets/marking_pages.py",
        (
            "a strip on a sheet from end B",
            "at = start + station.from_a * scale",
            "at = right - station.from_a * scale",
        ),
    ),
    *_in(
        "fabrication/fixings.py",
        (
            "a screw as long as the board",
            "return board.thickness + min(strips) - _SHORTER",
            "return board.thickness * 2.0",
        ),
    ),
    *_in(
        "assembly/step.py",
        (
            "new parts unmoved in a picture",
            "direction=o.direction, distance=o.distance)",
            "direction=o.direction, distance=0.0)",
        ),
        (
            "new parts come from the wrong side",
            "direction=o.direction, distance=o.distance)",
            "direction=-o.direction, distance=o.distance)",
        ),
    ),
    *_in(
        "drawing/sheets/step_packing.py",
        ("no room kept below the last step", "high - room.below, room.columns", "high, room.columns"),
    ),
    *_in(
        "drawing/sheets/table_columns.py",
        ("a table wider than its page", "    cost[units.sum(axis=0) > room] = math.inf\n", ""),
    ),
)
