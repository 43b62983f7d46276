"""Marks on a straight tube that become the shape that was drawn."""
