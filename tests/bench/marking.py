"""Marking one answer, as ratios to `Fraction(text)` in the same run: `python tests/bench/marking.py`.

The variant is made beforehand and no feedback is rendered. Aims: right ≤ 8, slip ≤ 12, wrong ≤ 20 for one part. Then
the same over the content that is shipped: right answers to all parts of each question, for each part.
"""

import statistics
import tempfile
import timeit
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from quizkit.authoring.content import compile_folder
from quizkit.pack.model import Numeric, Pack
from quizkit.pack.variant import Variant

CONTENT = Path(__file__).parents[2] / "content"
SHOP = 'name = "Bench"\nzone = "UTC"\n'
MODULE = """title = "Shares"
skill = "shares"

[check]
pass_mark = 0.8
wait = "24 h"
valid = "24 months"
[check.topics]
shares = 1
"""
LESSON = """# Shares

::: question share
Topic: shares

`filler` of base at `ratio`. How much hardener?

| Given  | Drawn from              |
| ------ | ----------------------- |
| filler | 60 mL to 240 mL by 2 mL |
| ratio  | 10:1 by volume          |

Answer: `hardener_for(filler, ratio)` in mL, within 2 %

Slip: `filler * ratio.a` -- Upside down.

Slip: `filler / (ratio.a + ratio.b)` -- That splits the total.

Working: `filler` ÷ `ratio.a` = `answer`
:::
"""
BASE = 214
TYPED = (
    ("right", 8, "21.4 mL"),
    ("right", 8, "21.4"),
    ("slip", 12, "19.5 mL"),
    ("wrong", 20, "33.7 mL"),
    ("wrong, power of ten", 20, "2.14 mL"),
    ("wrong, other unit", 20, "0.72 mL"),
)


def compiled(folder: Path) -> Pack:
    """The pack of a folder of content."""
    made = compile_folder(folder)
    assert made.pack is not None, [str(problem) for problem in made.problems]
    return made.pack


def one_part() -> Variant:
    """A question of one part, with the numbers of the bench."""
    with tempfile.TemporaryDirectory() as folder:
        module = Path(folder) / "pairing"
        module.mkdir()
        (Path(folder) / "shop.toml").write_text(SHOP, encoding="utf-8")
        (module / "module.toml").write_text(MODULE, encoding="utf-8")
        (module / "1-shares.md").write_text(LESSON, encoding="utf-8")
        question = compiled(Path(folder)).question("pairing/share")
    return question.variant((BASE - 60) // 2)


def seconds(work: Callable[[], object], times: int) -> float:
    """The least time of one run out of seven rounds."""
    return min(timeit.repeat(work, number=times, repeat=7)) / times


def main() -> None:
    """Print a line for each outcome, and one for the content."""
    variant = one_part()
    for outcome, aim, text in TYPED:
        number = text.split()[0]
        told = variant.grade({"answer": text}).parts["answer"]
        assert told.outcome == outcome.split(",")[0], told
        bare = seconds(lambda number=number: Fraction(number), 20_000)  # type: ignore[misc]
        marked = seconds(lambda text=text: variant.grade({"answer": text}), 5_000)  # type: ignore[misc]
        print(f"{outcome:22} {text:10} {marked * 1e6:6.1f} µs  {marked / bare:5.1f} × Fraction  (aim ≤ {aim})")
    ratios = sorted(of_content())
    print(
        f"right answers to {len(ratios)} questions of the content, for each part: "
        f"median {statistics.median(ratios):.1f} ×, highest {ratios[-1]:.1f} × Fraction"
    )


def of_content() -> list[float]:
    """For each question with a number, what it costs to mark right answers, for each part."""
    found = []
    for question in compiled(CONTENT).questions():
        if any(isinstance(part, Numeric) for part in question.parts):
            variant = question.variant(question.numbers[len(question.numbers) // 2])
            right = {part.name: variant.right(part.name).removeprefix("≈ ") for part in question.parts}
            bare = seconds(lambda: Fraction("21.4"), 2_000)
            marked = seconds(lambda variant=variant, right=right: variant.grade(right), 200)  # type: ignore[misc]
            found.append(marked / bare / len(right))
    return found


if __name__ == "__main__":
    main()
