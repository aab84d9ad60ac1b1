"""The proof of a question over all its variants.

Aims: at 1,000,000 points ≤ 1.5 × the same formulas and comparisons typed as numpy by hand; at up to 1,000 points
≤ 1 ms a question.
"""

import statistics
from dataclasses import replace
from typing import Any

import numpy as np

from quizkit.authoring.content import compile_folder
from quizkit.authoring.prover import prove
from quizkit.authoring.question import read_question
from quizkit.authoring.source import Source
from quizkit.pack.model import Question
from quizkit.pack.shelf import Shelf
from tests.bench.lessons import CONTENT
from tests.bench.measure import line, medians, seconds, shown

AIM = 1e-3
"""Seconds for the proof of a question of up to 1,000 points."""

MILLION = """::: question joint
Topic: beads

A joint is `width` wide, with a gap of `gap`, and `length` long. How much goes in?

| Given  | Drawn from                       |
| ------ | -------------------------------- |
| width  | 6 mm to 15.9 mm by 0.1 mm        |
| gap    | 2 mm to 6.95 mm by 0.05 mm       |
| length | 600 mm to 1590 mm by 10 mm       |

Where: `width > gap`

Answer: `width * gap * length` in mL, within 2 %
Plausible: 5 mL to 200 mL

Slip: `pi / 4 * width ** 2 * length` -- That is a round bead. A joint is filled wide by deep.

Slip: `width * gap * length / 2` -- That is the half of it.

Slip: `width.mm + gap.mm + length.mm` -- A volume is a product, not a sum.
"""


def question() -> Question:
    """The question of a million points, as the compiler reads it."""
    read = read_question(Source("", tuple(MILLION.strip().split("\n"))), "beads/joint", Shelf())
    assert read.question is not None, read.problems
    return read.question


def by_hand() -> Any:
    """The same over the same grid, by whoever knows numpy: which points stand."""
    width = (np.arange(100) * 0.0001 + 0.006).reshape(100, 1, 1)
    gap = (np.arange(100) * 0.00005 + 0.002).reshape(1, 100, 1)
    length = (np.arange(100) * 0.01 + 0.6).reshape(1, 1, 100)
    right = width * gap * length * 1e6
    stands = (width > gap) & np.isfinite(right) & (right != 0) & (right >= 5) & (right <= 200)
    step = 100.0
    while not np.all((np.abs(rounded(right, step) - right) <= 0.02 * np.abs(right))[stands]):
        step /= 10
    stands = stands & (np.abs(rounded(right, step) - right) <= 0.02 * np.abs(right))
    slips = (
        np.pi / 4 * width**2 * length * 1e6 + 0 * gap,
        width * gap * length / 2 * 1e6,
        width * 1e3 + gap * 1e3 + length * 1e3,
    )
    for slip in slips:
        stands = stands & ~(np.abs(slip - right) <= 0.02 * np.abs(right))
        stands = stands & ~(np.abs(rounded(slip, step) - right) <= 0.02 * np.abs(right))
        (np.abs(slip - right) / np.abs(right))[stands].min()
    return stands


def rounded(value: Any, step: float) -> Any:
    """The nearest step, halves away from zero."""
    return np.sign(value) * np.floor(np.abs(value) / step + 0.5) * step


def main() -> None:
    """Print the figures."""
    one = question()
    proof, stands = prove(one), by_hand()
    assert proof.size == 1_000_000 and abs(proof.stands - int(stands.sum())) <= 5, (proof.stands, stands.sum())
    ours, floor = medians(7, lambda: prove(one), by_hand)
    line("1,000,000 points", ours, floor, 1.5, "numpy by hand")
    pack = compile_folder(CONTENT).pack
    assert pack is not None
    small = [replace(one, left_out=()) for one in pack.questions() if one.givens and one.numbers.size <= 1000]
    times = [min(seconds(lambda one=one: prove(one)) for _repeat in range(9)) for one in small]  # type: ignore[misc]
    over = sum(taken > AIM for taken in times)
    told = f"mean {shown(statistics.mean(times))}, worst {shown(max(times))}, {over} over the aim of {shown(AIM)}"
    print(f"{f'{len(small)} real ones of up to 1,000 points, median':46} {shown(statistics.median(times)):>10}  {told}")
