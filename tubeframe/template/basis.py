"""What a main dimension is measured between: an outside size taken for an inside one is a costly mistake."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Protocol, runtime_checkable

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.template.shop import Shop


class Basis(StrEnum):
    """From where to where a length is meant."""

    OUTSIDE = "outside"
    CENTRES = "centres"
    INSIDE = "inside"
    TOP = "top"
    UNDER = "under"


_SPELLED_OTHERWISE = {"centers": Basis.CENTRES}


@runtime_checkable
class HasBases(Protocol):
    """Parameters of which some lengths can be given on several bases."""

    def bases(self, shop: Shop) -> Mapping[str, Mapping[Basis, float]]:
        """Return, by the field's name, how much each other basis is less than the parameter's own [mm].

        It must not depend on the lengths that it is for.
        """
        ...


def split_basis(given: object, known: Sequence[Basis]) -> tuple[object, Basis | None]:
    """Take the word for a basis off a value, as in `24in inside`; None when there is none.

    Raises:
        ValueError: when the word is a basis, but not one of this length.

    """
    words = {b.value: b for b in Basis} | _SPELLED_OTHERWISE
    length, _, word = given.strip().rpartition(" ") if isinstance(given, str) else ("", "", "")
    if not length or word not in words:
        return given, None
    basis = words[word]
    if basis not in known:
        can = ", ".join(known) or "no other"
        message = f"'{word}' is not a basis for this length; known: {can}"
        raise ValueError(message)
    return length.strip(), basis
