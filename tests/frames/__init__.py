"""Frames as people draw them, as text, and what has to come of each."""
