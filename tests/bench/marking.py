"""Marking one answer, as ratios to `Fraction(text)` in the same run: `python tests/bench/marking.py`.

The variant is made beforehand and no feedback is rendered. Aims: right ≤ 8, slip ≤ 12, wrong ≤ 20.
"""

import timeit
from collections.abc import Callable
from fractions import Fraction

from quizkit.formula import RatioValue, parse
from quizkit.scoring.grade import NumericPart, Slip, aims, grade
from quizkit.scoring.tolerance import within_share
from quizkit.units import unit

ML = unit("mL")
PART = NumericPart(
    "answer",
    parse("hardener_for(filler, ratio)"),
    ML,
    within_share(Fraction(2, 100)),
    (Slip(parse("filler * ratio.a", slip=True)), Slip(parse("filler / (ratio.a + ratio.b)", slip=True))),
)
VALUES = {"filler": ML.to_base(Fraction(214)), "ratio": RatioValue(Fraction(10), Fraction(1), "volume")}
TYPED = (
    ("right", 8, "21.4 mL"),
    ("right", 8, "21.4"),
    ("slip", 12, "19.5 mL"),
    ("wrong", 20, "33.7 mL"),
    ("wrong, power of ten", 20, "2.14 mL"),
    ("wrong, other unit", 20, "0.72 mL"),
)


def seconds(work: Callable[[], object], times: int = 20_000) -> float:
    """The least time of one run out of five rounds."""
    return min(timeit.repeat(work, number=times, repeat=5)) / times


def main() -> None:
    """Print a line for each outcome."""
    true = aims((PART,), VALUES)
    for outcome, aim, text in TYPED:
        number = text.split()[0]
        verdict = grade((PART,), true, VALUES, {"answer": text})["answer"]
        assert verdict.outcome == outcome.split(",")[0], verdict
        bare = seconds(lambda number=number: Fraction(number))  # type: ignore[misc]
        marked = seconds(lambda text=text: grade((PART,), true, VALUES, {"answer": text}))  # type: ignore[misc]
        print(f"{outcome:22} {text:10} {marked * 1e6:6.1f} µs  {marked / bare:5.1f} × Fraction  (aim ≤ {aim})")


if __name__ == "__main__":
    main()
