"""Why a point of a question's grid is no variant of it."""

STANDS, NOT_LET, NO_VALUE, ZERO, IMPLAUSIBLE, ROUNDING, EDGE_OF_CHOICE, NOTHING_RIGHT, ALIKE, UNSHOWN = range(10)
FIRST_SLIP = 16
"""Reasons why a point is no variant; from FIRST_SLIP on, the slip (counted over all parts) that would be right."""
