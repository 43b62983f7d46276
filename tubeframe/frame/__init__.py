"""What is to be built, before any fitting is chosen: whole tubes, panels, and what goes with them."""
