"""A solver of space frames of bars that knows nothing of tubes or fittings."""
