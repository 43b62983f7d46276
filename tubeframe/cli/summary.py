"""What a build says when it is done."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.design_document import finding_document
from tubeframe.errors import InputError, Problem, Severity, cut, nearest_name
from tubeframe.fabrication.buying import known_total, unpriced
from tubeframe.geometry.units import Units, format_exact, format_length
from tubeframe.parts.explain import explained
from tubeframe.words.findings import told
from tubeframe.words.fittings import generic_words
from tubeframe.words.lengths import term_words
from tubeframe.words.reasons import reason_words

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from tubeframe.design import Design
    from tubeframe.errors import Finding
    from tubeframe.joints.joint import Joint

_POUNDS_PER_KG = 2.2046226218


def has_errors(design: Design) -> bool:
    """Whether a finding of severity error stands."""
    return any(f.severity is Severity.ERROR for f in design.findings)


def summary_document(design: Design, folder: Path, files: Sequence[str]) -> dict[str, Any]:
    """Return the summary as plain values, for --json."""
    made, size = design.fabrication, design.overall.size
    return {
        "template": design.source.template,
        "folder": str(folder),
        "files": list(files),
        "overall_mm": [round(v, 3) for v in size],
        "tubes": len(design.parts.pieces),
        "marks": len(design.parts.groups),
        "fittings": sum(f.quantity for f in made.fittings),
        "sticks": sum(1 for s in made.plan.sticks if not s.on_hand),
        "cut_plan": made.plan.status.value,
        "steps": len(design.assembly.steps),
        "mass_kg": round(design.mass, 3),
        "price": known_total(made.buying),
        "currency": design.workshop.currency,
        "findings": [finding_document(f, design.workshop.units) for f in design.findings],
    }


def summary_lines(design: Design, folder: Path, files: Sequence[str]) -> list[str]:
    """Return the summary as lines for a person."""
    made, units = design.fabrication, design.workshop.units
    width, length, height = (format_length(v, units) for v in design.sizes)
    bought = [s for s in made.plan.sticks if not s.on_hand]
    fittings = sum(f.quantity for f in made.fittings)
    tubes = f"{len(design.parts.pieces)} tubes of {len(design.parts.groups)} marks"
    lines = [
        f"{design.frame.name}: {width} wide, {length} long, {height} high; {tubes}, {fittings} fittings",
        f"buy {len(bought)} sticks (plan: {made.plan.status.value}), {_mass(design)}, {_price(design)}",
        f"{len(files)} files in {folder}: {', '.join(files)}",
    ]
    lines += [_finding_line(f, units) for f in design.findings]
    if generic := generic_words(made.fittings):
        lines.append(f"generic sizes: measure yours and put them into a workshop file before you cut: {generic}")
    return lines


def explain_lines(design: Design, mark: str) -> list[str]:
    """Return the arithmetic of a mark's cut length, or why a joint has its fitting, a line each.

    Raises:
        InputError: when there is no such mark or joint.

    """
    groups = {g.mark: g for g in design.parts.groups}
    joints = {str(j.id): j for j in design.jointed.joints}
    if mark in joints:
        return _joint_lines(joints[mark])
    if mark not in groups:
        known = (*groups, *joints)
        raise InputError(
            Problem(
                where="",
                key="--explain",
                message=f"there is no piece {cut(mark, 60)}",
                remedy=nearest_name(mark, known),
            )
        )
    piece, units = groups[mark].first, design.workshop.units
    terms = explained(piece, {str(j.id): j.kind for j in design.jointed.joints})
    rows = [
        f"  {'-' if t.length < 0 else '+'} {format_exact(abs(t.length), units):>12}  {term_words(t)}" for t in terms
    ]
    on_tape = format_length(piece.cut_rounded, units)
    return [
        f"{mark}, as {piece.id}:",
        *rows,
        f"  = {format_exact(piece.cut_length, units):>12}  exact; cut {on_tape}, rounded down",
    ]


def _joint_lines(joint: Joint) -> list[str]:
    """Say what a fitting holds, and why it is not another one."""
    held = ", ".join(f"{u.tube} ({u.role.value})" for u in joint.uses)
    return [
        f"{joint.id}: {joint.kind} holds {held}",
        *(f"  not the {r.kind}: {reason_words(r.why)}" for r in joint.refused),
    ]


def _finding_line(finding: Finding, units: Units) -> str:
    words = told(finding, units)
    return f"{finding.severity.value}: {words.where}: {words.message}; {words.remedy}"


def _mass(design: Design) -> str:
    mass = design.mass
    shown = f"{mass * _POUNDS_PER_KG:.0f} lb" if design.workshop.units is Units.INCH else f"{mass:.1f} kg"
    return f"tubes and boards {shown}"


def _price(design: Design) -> str:
    total = known_total(design.fabrication.buying)
    if total is None:
        return "price unknown (no prices in the workshop file)"
    missing = len(unpriced(design.fabrication.buying))
    rest = f" and {missing} lines without a price" if missing else ""
    return f"{total:.2f} {design.workshop.currency or ''}{rest}".strip()
