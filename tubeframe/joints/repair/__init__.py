"""Repairs of a frame: operations, what could be tried about a fault, and the search for what really mends it."""
