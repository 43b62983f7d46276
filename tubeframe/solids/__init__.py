"""Solids by cadquery: tubes, bends, fittings, boards, and the assembly. Nothing else imports it."""
