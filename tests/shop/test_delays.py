"""The growing wait after wrong sign-ins, per name and per address."""

import datetime as dt

from quizkit.shop.delays import Try, delay, free_at

NOON = dt.datetime(2026, 3, 2, 12, 0, tzinfo=dt.UTC)


def wrong(person: int, address: str, seconds: float) -> Try:
    return Try(person, address, NOON - dt.timedelta(seconds=seconds), False)


def right(person: int, address: str, seconds: float) -> Try:
    return Try(person, address, NOON - dt.timedelta(seconds=seconds), True)


def test_the_wait_grows_and_stops_at_a_minute() -> None:
    waits = [int(delay(count).total_seconds()) for count in range(12)]
    assert waits == [0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60, 60]
    assert delay(10_000).total_seconds() == 60


def test_wrong_tries_slow_the_name_from_any_address() -> None:
    tries = [wrong(1, f"addr{count}", 1) for count in range(8)]
    assert free_at(tries, 1, "elsewhere", NOON) == NOON + dt.timedelta(seconds=31)
    assert free_at(tries, 2, "elsewhere", NOON) <= NOON


def test_wrong_tries_slow_the_address_for_any_name() -> None:
    tries = [wrong(person, "tablet", 1) for person in range(8)]
    assert free_at(tries, 99, "tablet", NOON) > NOON
    assert free_at(tries, 99, "other", NOON) <= NOON


def test_a_tablet_known_to_the_person_is_spared_what_others_did_elsewhere() -> None:
    tries = [right(1, "tablet", 86_400)]
    tries += [wrong(1, "far", 1) for _try in range(9)] + [wrong(2, "tablet", 1) for _try in range(9)]
    assert free_at(tries, 1, "tablet", NOON) <= NOON
    assert free_at(tries, 1, "far", NOON) > NOON


def test_a_right_secret_ends_the_wait_of_the_name() -> None:
    tries = [wrong(1, "tablet", 90) for _try in range(9)] + [right(1, "tablet", 10)]
    assert free_at(tries, 1, "tablet", NOON) <= NOON


def test_a_night_ends_every_wait() -> None:
    tries = [wrong(1, "tablet", 90_000) for _try in range(50)]
    assert free_at(tries, 1, "tablet", NOON) <= NOON
