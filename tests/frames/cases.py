"""Every case there is."""

from __future__ import annotations

from tests.frames import bends, couplers, decks, doors, ends, roofs, shops, splits, stands

CASES = (
    *stands.CASES,
    *roofs.CASES,
    *bends.CASES,
    *couplers.CASES,
    *decks.CASES,
    *splits.CASES,
    *doors.CASES,
    *ends.CASES,
    *shops.CASES,
)
