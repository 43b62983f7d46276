"""How high the letters of printed pages are."""

SMALL, BODY, HEADING, TITLE = 2.6, 3.5, 5.0, 7.0
"""Cap heights [mm], no less than the series 2.5 3.5 5 7 of ISO 3098 (from memory)."""
NOTE = 2.8
"""Of notes beside pictures: 11 points, one more than IEC/IEEE 82079-1 asks of a text (from memory)."""
