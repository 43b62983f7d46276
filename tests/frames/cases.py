"""Every case there is."""

from __future__ import annotations

from tests.frames import bends, couplers, decks, ends, roofs, shops, splits, stands

CASES = (
    *stands.CASES,
    *roofs.CASES,
    *bends.CASES,
    *couplers.CASES,
    *decks.CASES,
    *splits.CASES,
    *ends.CASES,
    *shops.CASES,
)
