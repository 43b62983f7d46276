"""The stick plan: which piece is cut from which stick, at the least cost, proved. In whole numbers throughout."""
