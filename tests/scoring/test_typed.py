"""Thousands of texts near to what people write and far from it: each is read or unread, none raises, none takes long.

The long run is `python tests/bench/typed.py`: a million texts, and the slowest of them.
"""

import pytest

from quizkit.scoring.reading import LONGEST_ANSWER, Reading, Unread, read
from quizkit.units import PLAIN, unit
from tests.bench.typed import run

LONG = [
    *("9" * LONGEST_ANSWER, "1," + "250," * 49, "(" * LONGEST_ANSWER, "-" * LONGEST_ANSWER, "2 " * 100, "1/" * 100),
    *("1e" * 100, "½" * LONGEST_ANSWER, "5 m" + "/m" * 98, "5 " + "m^" * 99, "5 m" + "²" * 197, "$" * LONGEST_ANSWER),
    *("50:" * 66, "50 to " * 33, "٣" * LONGEST_ANSWER, "\u202f" * LONGEST_ANSWER, "5 " + "fl oz " * 33),
]


def test_thousands_of_texts_are_read_or_unread_and_some_are_understood() -> None:
    done = run(5_000)
    assert done.understood > 100 and done.slowest


@pytest.mark.parametrize("text", LONG, ids=lambda text: text[:12])
def test_a_text_as_long_as_it_may_be_is_told_what_was_not_understood(text: str) -> None:
    for asked in (PLAIN, unit("mL"), unit("$"), unit("mL/min")):
        told = read(text, asked)
        assert isinstance(told, Unread | Reading) and (isinstance(told, Reading) or told.why)


@pytest.mark.parametrize("length", [LONGEST_ANSWER + 1, 10_000, 1_000_000])
def test_a_text_that_is_too_long_is_refused_before_anything_is_looked_at(length: int) -> None:
    for text in ("9" * length, "(" * length, "½" * length):
        told = read(text, unit("mL"))
        assert isinstance(told, Unread) and str(LONGEST_ANSWER) in told.why


@pytest.mark.parametrize("power", ["31", "-31", "999999999", "-" + "9" * 150])
def test_a_power_of_ten_beyond_its_bound_is_unread_and_is_not_worked_out(power: str) -> None:
    assert isinstance(read(f"1e{power}", unit("mL")), Unread)
