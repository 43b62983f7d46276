"""Pieces as they are cut: lengths, stations, bends and marks."""
