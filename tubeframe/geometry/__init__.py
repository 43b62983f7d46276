"""Points, placements, centrelines and convex pieces; units. No library, no file."""
