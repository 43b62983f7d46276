"""Tests that read back what a build wrote."""
