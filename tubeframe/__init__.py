"""Frames of thin-wall steel conduit and clamp fittings, from three numbers to a shop sheet."""

from tubeframe._version import __version__

__all__ = ["__version__"]
