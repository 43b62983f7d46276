"""Tests of tubeframe."""
