"""The walk through variants: keyed, whole, and none twice until all are used."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from quizkit.quiz.walk import keyed, next_variant, order, places, shuffled


@given(st.integers(0, 300), st.binary(min_size=1, max_size=32))
def test_the_places_are_each_walked_once(size: int, key: bytes) -> None:
    assert sorted(places(size, key)) == list(range(size))
    assert sorted(order(size, key)) == list(range(size))


@given(st.integers(1, 60), st.integers(1, 3), st.text(max_size=5))
def test_no_variant_comes_twice_until_all_have_come(size: int, rounds: int, person: str) -> None:
    numbers = [3 * place + 1 for place in range(size)]
    used: Counter[int] = Counter()
    for done in range(1, rounds + 1):
        for _step in range(size):
            number = next_variant(person, "hash", numbers, used)
            assert number is not None
            used[number] += 1
        assert set(used) == set(numbers)
        assert set(used.values()) == {done}


def test_two_people_walk_in_different_orders() -> None:
    walks = {person: tuple(places(50, keyed(person, "hash"))) for person in ("1", "2", "3")}
    assert len(set(walks.values())) == 3


def test_a_variant_that_is_not_to_be_had_today_is_passed_over_and_comes_later() -> None:
    numbers, used = range(4), Counter[int]()
    for _step in range(2):
        number = next_variant("7", "q", numbers, used, stands=lambda number: number in (1, 2))
        assert number in (1, 2)
        used[number] += 1
    assert used == {1: 1, 2: 1}
    assert next_variant("7", "q", numbers, used) in (0, 3)


def test_nothing_comes_where_nothing_stands() -> None:
    assert next_variant("7", "q", range(4), {}, stands=lambda number: False) is None
    assert next_variant("7", "q", (), {}) is None


def test_the_first_of_four_million_comes_without_making_them_all() -> None:
    assert next_variant("7", "q", range(4_000_000), {}) in range(4_000_000)


def test_a_key_keeps_its_parts_apart_and_its_order_the_same_on_every_machine() -> None:
    assert keyed("1", "23") != keyed("12", "3")
    assert shuffled("abcdef", keyed("7", "q")) == shuffled("abcdef", keyed("7", "q"))
    assert tuple(places(6, b"key")) == (0, 1, 5, 3, 4, 2)
