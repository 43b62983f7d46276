"""Dimensions, balloons and words beside what they name, clear of what is drawn."""
