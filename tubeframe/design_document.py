"""The design as plain values, with the keys that others rely on (mm, degrees, N, kg)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe._version import __version__
from tubeframe.assembly.counts import labels, step_parts
from tubeframe.assembly.document import face_document, label_document, operation_document, raising_document
from tubeframe.catalog.fitting import PortRole
from tubeframe.fabrication.bending.document import bend_sheet_document
from tubeframe.fabrication.cutting.document import cut_plan_document, sweet_spot_document
from tubeframe.fabrication.other_sizes import size_document
from tubeframe.geometry.plain import number, point
from tubeframe.joints.loops import rings
from tubeframe.parts.document import member_document, panel_document, piece_document
from tubeframe.words.findings import told
from tubeframe.words.steps import told_steps
from tubeframe.words.tools import tool_list
from tubeframe.words.verdicts import strength_note, verdict_document

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.errors import Finding
    from tubeframe.fabrication.fitting_count import FittingCount
    from tubeframe.geometry.units import Units
    from tubeframe.joints.joint import BoltWay, Joint
    from tubeframe.joints.loops import Ring
    from tubeframe.words.steps import ToldStep

SCHEMA = "tubeframe.design/1"
SCHEMA_FAMILY = "tubeframe.design/"

Plain = dict[str, Any]


def design_document(design: Design) -> Plain:
    """Turn a design into plain values; lengths are exact to 1e-6 mm."""
    made = design.fabrication
    width, length, height = design.sizes
    return {
        "schema": SCHEMA,
        "made_by": f"tubeframe {__version__}",
        "template": design.source.template,
        "parameters": dict(design.source.parameters),
        "units": design.workshop.units.value,
        "overall": {
            "width_mm": number(width),
            "length_mm": number(length),
            "height_mm": number(height),
        },
        "extent": {"min_mm": point(design.extent.low), "max_mm": point(design.extent.high)},
        "mass_kg": number(design.mass),
        "members": [member_document(p) for p in design.parts.pieces],
        "pieces": [piece_document(g) for g in design.parts.groups],
        "panels": [panel_document(p, g.mark) for g in design.parts.panel_groups for p in g.panels],
        "joints": [_joint(j, [b for b in design.jointed.bolts if b.joint == j.id]) for j in design.jointed.joints],
        "groups": [
            {"name": g.name, "members": [str(m) for m in g.members], "turns_on": str(g.turns_on)}
            for g in design.frame.groups
        ],
        "rings": [_ring(r) for r in rings(design.jointed.tubes, design.jointed.joints)],
        "fittings": [
            {
                "kind": f.kind,
                "tubes": f.tubes,
                "quantity": f.quantity,
                "bolts": f.bolts,
                "measured": [{"lengths": list(m.lengths), "joints": list(m.joints)} for m in f.measured],
                "generic": list(f.generic),
                **{key: number(value) for key, value in _strength(f) if value is not None},
            }
            for f in made.fittings
        ],
        "cut_plan": cut_plan_document(made.plan),
        "sweet_spots": [sweet_spot_document(s) for s in made.sweet_spots],
        "other_sizes": [size_document(s) for s in made.other_sizes],
        "bending": [bend_sheet_document(b) for b in made.bend_sheets],
        "buying": [
            {"item": p.item, "quantity": p.quantity, "unit": p.unit, "price": p.price, "spare": p.spare}
            for p in made.buying
        ],
        **_assembly(design),
        "verdicts": [verdict_document(v, design.workshop.units) for v in design.verdicts],
        "strength_note": strength_note(covered=design.frame.cover is not None),
        "findings": [finding_document(f, design.workshop.units) for f in design.findings],
    }


def _assembly(design: Design) -> Plain:
    made = design.assembly
    return {
        "subframes": [{"id": s.id, "members": list(s.members)} for s in made.flats],
        "tools": list(tool_list(design)),
        "steps": [_step(s, design) for s in told_steps(design)],
        "labels": [label_document(p) for p in labels(design.parts, design.jointed)],
        "faces": [face_document(f) for f in made.faces],
    }


def finding_document(finding: Finding, units: Units) -> Plain:
    """Turn a finding into plain values, in words of some units."""
    words = told(finding, units)
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "where": words.where,
        "message": words.message,
        "remedy": words.remedy,
    }


def parameters_document(design: Design) -> Plain:
    """Turn what a design was made from into plain values that build it again."""
    document: Plain = {"template": design.source.template, "parameters": dict(design.source.parameters)}
    if design.source.shop:
        document["workshop"] = dict(design.source.shop)
    return document


def _joint(joint: Joint, bolts: list[BoltWay]) -> Plain:
    return {
        "id": joint.id,
        "kind": joint.kind,
        "at_mm": point(joint.at),
        "rotation": [number(v) for v in joint.placement.rotation],
        "ports": {u.port: u.tube for u in joint.uses},
        "run_members": [u.tube for u in joint.uses if u.role is PortRole.RUN],
        "branch_members": [u.tube for u in joint.uses if u.role is not PortRole.RUN],
        "bolts": joint.bolts,
        "bolt_heads": [
            {"port": b.port, "at_mm": point(b.at), "head": point(b.head), "free_mm": number(b.free)} for b in bolts
        ],
    }


def _ring(ring: Ring) -> Plain:
    closing = ring.slides[0] if ring.slides else None
    return {
        "members": list(ring.tubes),
        "closing_member": closing.tube if closing else None,
        "slides_along": closing.along if closing else None,
        "joint": closing.joint if closing else None,
    }


def _step(step: ToldStep, design: Design) -> Plain:
    counted = step_parts(step.data, design.parts, design.jointed)
    return {
        "number": step.number,
        "title": step.title,
        "work": step.data.work.name.lower().replace("_", "-"),
        "parts": [
            {"what": what, "name": c.name, "quantity": c.quantity}
            for what, counts in (("tube", counted.tubes), ("fitting", counted.fittings), ("board", counted.boards))
            for c in counts
        ],
        "adds": {"members": list(step.tubes), "joints": list(step.joints), "panels": list(step.panels)},
        "raises": [raising_document(r) for r in step.data.raises],
        "operations": [operation_document(o) for o in step.data.operations],
        "moves": [
            {"what": m.what, "direction": point(m.direction), "distance_mm": number(m.distance)} for m in step.moves
        ],
        "jobs": [j.kind.value for j in step.data.jobs],
        "subframe": step.sub_frame or None,
        "subframes": list(step.data.sub_frames),
        "tightens": list(step.data.tightens),
        "stands": step.data.stands,
        "hands": step.hands,
        "tool": step.tool,
        "tools": [t.value for t in step.data.tools],
        "action": list(step.action),
        "check": step.check,
        "cautions": [{"signal": c.signal.value, "text": c.text} for c in step.cautions],
    }


def _strength(count: FittingCount) -> tuple[tuple[str, float | None], ...]:
    """Return what the user measured of a fitting's strength [N, N mm]."""
    return (
        ("slip_force_n", count.slip_force),
        ("twist_moment_nmm", count.twist_moment),
        ("bolt_torque_nmm", count.bolt_torque),
    )
