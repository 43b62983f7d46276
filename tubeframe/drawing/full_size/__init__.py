"""Flat parts at 1:1, to lay tubes on."""
