"""Marks of choices, orders and pairs, and totals; all exact."""

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import combinations

from quizkit.arith import nearest
from quizkit.scoring.reading import LONGEST_ANSWER, Unread
from quizkit.scoring.spelling import tidy
from quizkit.words import _

_NUMBERS = re.compile(r"[0-9]{1,3}(?:(?: ?[,;] ?| (?:and )?)[0-9]{1,3})*[,;.]?")
_PAIR = r"[0-9]{1,3}+ ?+(?:->|[-=:.>])?+ ?+[a-z]"
_PAIRS = re.compile(rf"{_PAIR}(?: ?+[,;]?+ ?+{_PAIR})*+ ?+[,;.]?+")  # possessive: no text makes it try twice
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def read_choices(text: str, count: int) -> frozenset[int] | Unread:
    """The chosen options of '1, 3', numbered from 1 as shown. Unread: nothing, words, a number that no option has."""
    numbers = _numbers(text, count)
    return numbers if isinstance(numbers, Unread) else frozenset(numbers)


def read_order(text: str, count: int) -> tuple[int, ...] | Unread:
    """The order of '3 1 2 4', numbered from 1 as shown. Unread unless each number stands in it once."""
    numbers = _numbers(text, count)
    if isinstance(numbers, Unread):
        return numbers
    if sorted(numbers) != list(range(1, count + 1)):
        return Unread(text, _("each of the {count} numbers must stand in the order once").format(count=count))
    return numbers


def order_mark(right: Sequence[int], placed: Sequence[int]) -> Fraction:
    """The share of all pairs that stand in the right order; `placed` is an arrangement of `right`."""
    rank = {item: place for place, item in enumerate(right)}
    pairs = list(combinations(placed, 2))
    if not pairs:
        return Fraction(1)
    return Fraction(sum(rank[first] < rank[second] for first, second in pairs), len(pairs))


def read_match(text: str, count: int, letters: int | None = None) -> dict[int, int] | Unread:
    """The pairs of '1b 2a 3c' as number → place of the letter, both from 1.

    `letters` is how many letters there are (as many as numbers unless told). Unread: a number or a letter that does
    not exist, a number that stands twice or is missing.
    """
    if not text.strip():
        return Unread(text, _("nothing was chosen"))
    plain = tidy(text).casefold() if len(text) <= LONGEST_ANSWER else ""
    if not _PAIRS.fullmatch(plain):
        return Unread(text, _("this is not understood; type pairs like 1b 2a 3c"))
    found = [
        (int(number), LETTERS.index(letter) + 1) for number, letter in re.findall(r"([0-9]+)[^a-z0-9]*([a-z])", plain)
    ]
    for number, letter in found:
        if not 1 <= number <= count:
            return Unread(text, _("there is no number {number}").format(number=number))
        if letter > (letters or count):
            return Unread(text, _("there is no letter {letter}").format(letter=LETTERS[letter - 1]))
    pairs = dict(found)
    if len(found) != len(pairs) or len(pairs) != count:
        return Unread(text, _("each of the {count} numbers must have one letter").format(count=count))
    return pairs


def match_mark(right: dict[int, int], paired: dict[int, int]) -> Fraction:
    """The share of right pairs."""
    if not right:
        return Fraction(1)
    return Fraction(sum(paired.get(number) == letter for number, letter in right.items()), len(right))


def total(marks: Iterable[Fraction]) -> Fraction:
    """The exact sum of marks."""
    return sum(marks, Fraction(0))


def show_mark(mark: Fraction, decimal_mark: str = ".") -> str:
    """A mark or a total with at most two decimals, halves away from zero: "3", "2.5", "0.83"."""
    hundredths = int(nearest(mark * 100, 1))
    whole, part = divmod(abs(hundredths), 100)
    sign = "-" if hundredths < 0 else ""
    return f"{sign}{whole}{decimal_mark}{part:02d}".rstrip("0").rstrip(decimal_mark) if part else f"{sign}{whole}"


def _numbers(text: str, count: int) -> tuple[int, ...] | Unread:
    plain = tidy(text) if len(text) <= LONGEST_ANSWER else ""
    if not plain:
        return Unread(text, _("nothing was chosen") if not text.strip() else _("this answer is too long"))
    if not _NUMBERS.fullmatch(plain):
        return Unread(text, _("this is not understood; type numbers like 1, 3"))
    numbers = tuple(int(one) for one in re.findall(r"[0-9]+", plain))
    for number in numbers:
        if not 1 <= number <= count:
            return Unread(text, _("there is no number {number}").format(number=number))
    if len(set(numbers)) != len(numbers):
        return Unread(text, _("a number stands twice"))
    return numbers
