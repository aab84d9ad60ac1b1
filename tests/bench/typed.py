"""A long run of generated answers through the reader and the marking: `python tests/bench/typed.py [COUNT]`.

No text may raise; the slowest is reported. A text is cut, doubled, swapped and salted from forms that people write.
"""

import random
import sys
import time
import timeit
from dataclasses import dataclass
from fractions import Fraction
from heapq import nlargest
from operator import itemgetter

from quizkit.scoring.marks import read_choices, read_match, read_order
from quizkit.scoring.reading import DAY_COUNT, Style, Unread, read
from quizkit.scoring.tolerance import within_share
from quizkit.scoring.verdict import Target, judge
from quizkit.units import PLAIN, UNITS, Unit, unit

SEEDS = (
    *("2.4 mL", ".5", "1/2 in", "2 1/2 turns", "2½", "1.2e3", "1,250.00", "50:1", "50 to 1", "$23.40", "USD 23.40"),
    *("23.40 USD", "35%", "−5 %", "2 fl oz", "20 °C", "68 degrees F", "3 cu. in.", "5 mL/min", "1.2×10³ mL", "2 oz wt"),
    *("2026-05-31", "31 May 2026", "5/31/2026", "1, 3", "3 1 2 4", "1b 2a 3c", "5-6 mL", "about 5", "1_0", "0x1f"),
)
SALT = "0123456789.,/-+:%$€ eE½⅞²³–−\u00a0\u202f\u200b°'\"µ×^()\0\n\t٣①漢\U0001f600"
ASKED = (PLAIN, DAY_COUNT, unit("mL/min"), unit("$/mL"), unit("°C apart"), *UNITS)
TOLERANCE = within_share(Fraction(2, 100))
AGAIN = 50
"""How many of the slowest texts are timed again."""
STYLES = (Style(), Style(mark=","), Style(currency="EUR", dates="d/m/y"), Style(dates="m/d/y"))


def typed(chance: random.Random) -> str:
    """One text near to what people write, or far from it."""
    text = "".join(chance.choice(SEEDS) for _ in range(chance.choice((1, 1, 1, 2, 8))))
    for _ in range(chance.randrange(6)):
        place = chance.randrange(len(text) + 1)
        other = chance.randrange(len(text) + 1)
        low, high = min(place, other), max(place, other)
        match chance.randrange(5):
            case 0:
                text = text[:low] + text[high:]
            case 1:
                text = text[:high] + text[low:high] * chance.choice((1, 2, 60)) + text[high:]
            case 2:
                text = text[high:] + text[:low]
            case 3:
                text = text[:place] + chr(chance.randrange(0x3000)) + text[place:]
            case _:
                text = text[:place] + chance.choice(SALT) * chance.choice((1, 1, 3, 190)) + text[place:]
    return text[: chance.choice((250, 250, 2000))]


@dataclass(frozen=True)
class Run:
    """What came of a run: how many texts were understood as numbers, and the slowest with its time in seconds."""

    understood: int
    slowest: str
    seconds: float


def mark(text: str, asked: Unit, style: Style) -> bool:
    """Read a text in every way there is and judge it; gives whether it was understood as a number."""
    reading = read(text, asked, style)
    judge(reading, asked, TOLERANCE, Target(Fraction(24), (Fraction(240),)))
    for reader in (read_choices, read_order, read_match):
        reader(text, 9)
    return not isinstance(reading, Unread)


def run(count: int, seed: int = 20260531) -> Run:
    """Read and judge so many texts. The slowest ones are timed again, so that a pause of the machine is not theirs."""
    chance = random.Random(seed)
    understood = 0
    slow: list[tuple[float, str, Unit, Style]] = []
    for _ in range(count):
        text, asked, style = typed(chance), chance.choice(ASKED), chance.choice(STYLES)
        start = time.perf_counter()
        understood += mark(text, asked, style)
        slow.append((time.perf_counter() - start, text, asked, style))
        if len(slow) > 1_000:
            slow = nlargest(AGAIN, slow, key=itemgetter(0))
    again = [(_least(text, asked, style), text) for _took, text, asked, style in nlargest(AGAIN, slow, itemgetter(0))]
    seconds, text = max(again)
    return Run(understood, text, seconds)


def _least(text: str, asked: Unit, style: Style) -> float:
    return min(timeit.repeat(lambda: mark(text, asked, style), number=1, repeat=7))


def main(count: int) -> None:
    """Print how many were read, and the slowest."""
    done = run(count)
    print(f"{count} texts, {done.understood} understood as numbers, none raised")
    print(f"slowest: {done.seconds * 1e3:.2f} ms for {done.slowest[:80]!r} ({len(done.slowest)} characters)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
