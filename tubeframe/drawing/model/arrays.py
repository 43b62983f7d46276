"""Names for arrays, and operations on rows."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]
Flags = NDArray[np.bool_]


def dots(a: Floats, b: Floats) -> Floats:
    """Return the scalar product of each row of (n, k) with the same row of another, as (n,)."""
    product: Floats = np.einsum("ij,ij->i", a, b)
    return product


def distinct(numbers: Indices) -> Indices:
    """Return each of the numbers (n,) once, in rising order; much faster here than the library's hash table."""
    rising = np.sort(numbers)
    new = np.ones(len(rising), dtype=bool)
    new[1:] = rising[1:] != rising[:-1]
    return rising[new]


def spread(counts: Indices) -> tuple[Indices, Indices]:
    """Lay runs of given lengths (n,) end to end; return for each element its run, and its place within the run."""
    run = np.repeat(np.arange(len(counts)), counts)
    begin = np.cumsum(counts) - counts
    return run, np.arange(len(run)) - np.repeat(begin, counts)


def clusters(group: Indices, value: Floats, gap: float) -> Indices:
    """Give values (n,) numbers so that those of one group with no gap between them have one number."""
    order = np.lexsort((value, group))
    new = np.ones(len(order), dtype=np.int64)
    new[1:] = (np.diff(group[order]) != 0) | (np.diff(value[order]) > gap)
    number = np.empty(len(order), dtype=np.int64)
    number[order] = np.cumsum(new) - 1
    return number
