"""Where fittings may sit on bent tubes: on straights off bends, and on wide arcs (all in [mm])."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path
    from tubeframe.template.shop import Shop

_ROUNDING = 1e-6


def sits(kind: str, tube: str, path: Path, at: float, shop: Shop) -> bool:
    """Tell whether a fitting may sit on a tube, so far from its start."""
    fitting = shop.fitting(kind, tube)
    return _is_clear(path, at, fitting.off_bend, fitting.least_arc)


def sleeve_sits(tube: str, path: Path, at: float, shop: Shop) -> bool:
    """Tell whether a tube may be parted in a sleeve, so far from its start."""
    least_arc = shop.fitting(shop.workshop.catalog.sleeve.key, tube).least_arc
    return _is_clear(path, at, shop.sleeve_off_bend(tube), least_arc)


def _is_clear(path: Path, at: float, off_bend: float, least_arc: float) -> bool:
    """Whether a place is so far off every bend that is tighter than an arc."""
    tight = ((start, start + bend.length) for start, bend in path.bends if bend.radius < least_arc)
    return all(at <= start - off_bend + _ROUNDING or at >= end + off_bend - _ROUNDING for start, end in tight)
