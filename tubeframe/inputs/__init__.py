"""The user's files, turned into plain values."""
