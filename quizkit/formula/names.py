"""The names that a formula knows of itself, and what an author may call a given."""

import keyword
import re

from quizkit.trade import SUMS
from quizkit.units import is_unit
from quizkit.words import _

NAME = r"[a-z][a-z0-9_]*"
LONGEST_NAME = 40
MANY = 20

HELPERS: dict[str, tuple[int, int]] = {
    "ceil": (1, 1),
    "floor": (1, 1),
    "nearest": (2, 2),
    "next_up": (2, MANY),
    "at_least": (2, 2),
    "min": (2, MANY),
    "max": (2, MANY),
    "abs": (1, 1),
    "sqrt": (1, 1),
}
"""Each helper, and how many values it takes at least and at most."""


def name_fault(name: str) -> str:
    """Why an author may not call a given or a part this, in words; "" where the name is good."""
    if not re.fullmatch(NAME, name) or len(name) > LONGEST_NAME:
        return _("a name has small letters, digits and _, begins with a letter, and has at most {n} characters").format(
            n=LONGEST_NAME
        )
    if name in HELPERS or name == "pi" or keyword.iskeyword(name):
        return _("'{name}' is a word of the formula language").format(name=name)
    if name in SUMS:
        return _("'{name}' is a sum of the trade").format(name=name)
    return _("'{name}' is a unit").format(name=name) if is_unit(name) else ""
