"""Steps of the assembly taken apart: what is new is drawn off its place, from where it is seen best."""
