"""What is said under the buying list."""

from __future__ import annotations

from tubeframe.fabrication.buying import Purchase
from tubeframe.words.buying import TRADE, total_words


def test_the_sum_has_the_spares_and_names_what_has_no_price():
    """3 sticks at 9.50, 4 tees and a spare at 2.50: 28.50 + 12.50."""
    bought = (
        Purchase(item="stick", quantity=3, unit="pcs", price=9.5),
        Purchase(item="tee", quantity=4, unit="pcs", price=2.5, spare=1),
        *(Purchase(item=f"board {n}", quantity=1, unit="pcs") for n in range(1, 6)),
        Purchase(item="cross", quantity=0, unit="pcs"),
    )

    assert list(total_words(bought, "USD")) == [
        "Known prices together, with spares: 41.00 USD",
        "Not in it, since no price is known: board 1; board 2; board 3; and 2 more.",
    ]


def test_without_prices_there_is_no_sum():
    assert not list(total_words((Purchase(item="tee", quantity=4, unit="pcs"),), ""))


def test_the_fittings_are_not_those_for_electrical_boxes():
    assert "electrical" in TRADE
    assert "boxes" in TRADE
