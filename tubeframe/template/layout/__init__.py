"""Meaning in, places out: what templates lay out alike, so that none works it out again."""
