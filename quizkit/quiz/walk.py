"""Each person's walk through the variants of a question: a keyed order, none twice until all are used."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Protocol, TypeVar

Thing = TypeVar("Thing")

ROUNDS = 6
"""Rounds of the mixing network: enough that neighbours in the walk share no pattern a person could see."""


class Numbered(Protocol):
    """The variants of a question that stand, by their place: a list, or whatever counts and gives them like one."""

    def __len__(self) -> int: ...

    def __getitem__(self, place: int, /) -> int: ...


def keyed(*parts: object) -> bytes:
    """A key of 32 bytes out of some parts; no two lists of parts give the same text to hash."""
    text = "".join(f"{len(word)}:{word}" for word in map(str, parts))
    return hashlib.sha256(text.encode()).digest()


def shuffled(values: Sequence[Thing], key: bytes) -> tuple[Thing, ...]:
    """The values in an order that the key alone decides, the same on every machine."""
    return tuple(values[place] for place in order(len(values), key))


def order(size: int, key: bytes) -> tuple[int, ...]:
    """The places 0 … size - 1 in the order of the key."""
    return tuple(
        sorted(range(size), key=lambda place: hashlib.blake2b(b"%d" % place, key=key, digest_size=16).digest())
    )


def places(size: int, key: bytes) -> Iterator[int]:
    """The places 0 … size - 1, each once, in the order of the key; made one at a time, for sizes of millions.

    A balanced mixing network over the next even power of two permutes the numbers; those past the size are walked over.
    """
    half = max(1, ((size - 1).bit_length() + 1) // 2) if size else 0
    for start in range(1 << (2 * half) if size else 0):
        place = _mixed(start, half, key)
        if place < size:
            yield place


def _mixed(number: int, half: int, key: bytes) -> int:
    """One number of 2 × `half` bits, moved to its own other place."""
    mask = (1 << half) - 1
    left, right = number >> half, number & mask
    for turn in range(ROUNDS):
        mix = hashlib.blake2b(b"%d:%d" % (turn, right), key=key, digest_size=8).digest()
        left, right = right, left ^ (int.from_bytes(mix, "big") & mask)
    return (left << half) | right


def next_variant(
    person: str,
    question: str,
    numbers: Numbered,
    used: Mapping[int, int],
    stands: Callable[[int], bool] = lambda number: True,
) -> int | None:
    """The next variant for a person, or None where none stands today.

    `question` is the hash of the question, `numbers` its variants without the holes, `used` how often this person has
    met each (in practice, check and on paper alike). `stands` passes over variants that are not to be had today (a row
    that the shelf does not stock). The first in the keyed order among those met least often.
    """
    key = keyed(person, question)
    best: int | None = None
    for place in places(len(numbers), key):
        number = numbers[place]
        met = used.get(number, 0)
        if (best is None or met < used.get(best, 0)) and stands(number):
            best = number
            if met == 0:
                return number
    return best
