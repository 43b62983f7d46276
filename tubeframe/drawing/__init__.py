"""Neutral drawings in mm: views with hidden lines, dimensions, sheets. No CAD library."""
