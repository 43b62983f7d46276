"""Fittings in number, by kind and size, and what of their sizes is measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.measured import Sizes
    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.joints.joint import Joint, JointId


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """The lengths of a fitting that the user measured, and the joints where they count."""

    lengths: tuple[str, ...]
    joints: tuple[JointId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingCount:
    """How many fittings of a kind, for tubes of which size.

    `generic` are the joints where a length that tubes are cut or placed by was never measured. What the user measured
    of its strength: where it slips [N], where it twists and how its bolts are tightened [N mm].
    """

    kind: str
    sizes: Sizes
    tubes: str
    quantity: int
    bolts: int
    measured: tuple[Measurement, ...] = ()
    generic: tuple[JointId, ...] = ()
    slip_force: float | None = None
    twist_moment: float | None = None
    bolt_torque: float | None = None


def count_fittings(joints: Sequence[Joint], workshop: Workshop) -> tuple[FittingCount, ...]:
    """Count fittings by kind and tube size, in the catalogue's order."""
    order = {k.key: n for n, k in enumerate(workshop.catalog.kinds)}
    groups: dict[tuple[str, Sizes], list[tuple[Joint, SizedFitting]]] = {}
    for joint in joints:
        if joint.fitting:
            groups.setdefault((joint.kind, joint.fitting.sizes), []).append((joint, joint.fitting))
    made = [_counted(group, workshop) for group in groups.values()]
    return tuple(sorted(made, key=lambda count: (order[count.kind], count.tubes)))


def _counted(group: Sequence[tuple[Joint, SizedFitting]], workshop: Workshop) -> FittingCount:
    joint, fitting = group[0]
    lengths: dict[tuple[str, ...], list[JointId]] = {}
    for other, sized in group:
        if sized.measured:
            lengths.setdefault(sized.measured, []).append(other.id)
    return FittingCount(
        kind=joint.kind,
        sizes=fitting.sizes,
        tubes=tube_names(fitting, workshop.catalog),
        quantity=len(group),
        bolts=fitting.kind.bolts,
        measured=tuple(Measurement(lengths=keys, joints=tuple(ids)) for keys, ids in lengths.items()),
        generic=tuple(other.id for other, sized in group if sized.is_generic),
        slip_force=workshop.measured.value(joint.kind, fitting.sizes, "slip_force"),
        twist_moment=workshop.measured.value(joint.kind, fitting.sizes, "twist_moment"),
        bolt_torque=workshop.measured.value(joint.kind, fitting.sizes, "bolt_torque"),
    )


def tube_names(fitting: SizedFitting, catalog: Catalog) -> str:
    """Name the sizes that a fitting holds: one, or which the run's is and which the branch's."""
    if len(fitting.sizes) == 1:
        return catalog.tube(fitting.sizes[0]).name
    roles = dict.fromkeys(p.role for role in PortRole for p in fitting.ports if p.role is role)
    return ", ".join(_of_role(fitting, role, catalog, named=len(roles) > 1) for role in roles)


def _of_role(fitting: SizedFitting, role: PortRole, catalog: Catalog, *, named: bool) -> str:
    tubes = sorted((catalog.tube(p.tube) for p in fitting.ports if p.role is role), key=lambda t: -t.outside)
    names = [t.name for t in tubes]
    if len(set(names)) == 1:
        names = names[:1]
    return f"{' x '.join(names)} {role.value}" if named else " x ".join(names)
