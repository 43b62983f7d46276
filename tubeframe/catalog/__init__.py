"""Tubes, fittings, bolts, sticks, benders and materials; and the user's own shop merged over them."""
