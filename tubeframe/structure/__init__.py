"""Whether a frame holds: stiffness, second order, buckling, modes; then strength, clamps, tipping, wind and snow."""
