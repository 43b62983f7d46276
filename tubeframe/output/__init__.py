"""Writing a design: one file a format."""
