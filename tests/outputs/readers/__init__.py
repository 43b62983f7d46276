"""Readers of the written files that share no code with the libraries that write them.

A test reads a file with `step`, `dxf` (and `dxf_dimensions`), `pdf` (and `pdf_faults`) or `glb`. Under them lie
`part21`, `step_text` and `kernel` for STEP, `dxf_tags` for DXF, `placing` and `plane` for geometry in space and on a
sheet, and `lengths`, which reads a length as a drawing shows it. A file that breaks its own format raises `ValueError`
with plain words; everything else comes back as frozen data, for a test to judge.
"""
