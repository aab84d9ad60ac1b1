"""Work on several processes comes back in order, and a process that dies takes nobody along."""

import os
from fractions import Fraction

import pytest

from quizkit.authoring.spread import spread
from quizkit.pack.model import Numeric, Slip
from quizkit.pack.nodes import Element
from quizkit.scoring.tolerance import within_share


def test_results_come_back_in_order() -> None:
    assert spread(250, lambda place: place * place, 3) == [place * place for place in range(250)]
    assert spread(0, lambda place: place, 2) == []


def test_it_is_done_elsewhere() -> None:
    assert os.getpid() not in (spread(100, lambda place: os.getpid(), 2) or [os.getpid()])


def test_an_exception_is_raised_here() -> None:
    with pytest.raises(ZeroDivisionError):
        spread(100, lambda place: 1 // (place - 50), 2)


def test_a_process_that_dies_is_told_by_none() -> None:
    assert spread(100, lambda place: os._exit(1) if place == 50 else place, 2) is None


def test_what_is_sent_home_is_equal_to_what_was_made() -> None:
    def work(place: int) -> Numeric:
        slip = Slip("a", (Element("value", (("formula", "a"),)), "is too much"), True)
        return Numeric("answer", (), f"{place} * a", "mL", within_share(Fraction(place, 100)), slips=(slip,))

    assert spread(90, work, 2) == [work(place) for place in range(90)]
