"""Every case there is."""

from __future__ import annotations

from tests.frames import bends, couplers, decks, stands

CASES = (*stands.CASES, *bends.CASES, *couplers.CASES, *decks.CASES)
