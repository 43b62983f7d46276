"""Making and putting together: stick plan, bend marks, buying list, flat sub-frames and the order of assembly."""
