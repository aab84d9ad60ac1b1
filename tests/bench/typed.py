"""A long run of generated answers through the reader and the marking: `python tests/bench/typed.py [COUNT]`.

No text may raise; the slowest is reported. A text is cut, doubled, swapped and salted from forms that people write.
"""

import random
import sys
import time

from quizkit.scoring.marks import read_choices, read_match, read_order
from quizkit.scoring.reading import DAY_COUNT, Style, Unread, read
from quizkit.scoring.tolerance import within_share
from quizkit.scoring.verdict import Target, judge
from quizkit.units import PLAIN, UNITS, unit

SEEDS = (
    *("2.4 mL", ".5", "1/2 in", "2 1/2 turns", "2½", "1.2e3", "1,250.00", "50:1", "50 to 1", "$23.40", "USD 23.40"),
    *("23.40 USD", "35%", "−5 %", "2 fl oz", "20 °C", "68 degrees F", "3 cu. in.", "5 mL/min", "1.2×10³ mL", "2 oz wt"),
    *("2026-05-31", "31 May 2026", "5/31/2026", "1, 3", "3 1 2 4", "1b 2a 3c", "5-6 mL", "about 5", "1_0", "0x1f"),
)
SALT = "0123456789.,/-+:%$€ eE½⅞²³–−\u00a0\u202f\u200b°'\"µ×^()\0\n\t٣①漢\U0001f600"
ASKED = (PLAIN, DAY_COUNT, unit("mL/min"), unit("$/mL"), unit("°C apart"), *UNITS)
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


def main(count: int) -> None:
    """Read and judge `count` texts; print how many were read, and the slowest."""
    chance = random.Random(20260531)
    tolerance = within_share(PLAIN.factor / 50)
    slowest, worst, understood = 0.0, "", 0
    for _ in range(count):
        text, asked, style = typed(chance), chance.choice(ASKED), chance.choice(STYLES)
        start = time.perf_counter()
        reading = read(text, asked, style)
        judge(reading, asked, tolerance, Target(PLAIN.factor * 24, (PLAIN.factor * 240,)))
        read_choices(text, 9)
        read_order(text, 9)
        read_match(text, 9)
        took = time.perf_counter() - start
        understood += not isinstance(reading, Unread)
        if took > slowest:
            slowest, worst = took, text
    print(f"{count} texts, {understood} understood as numbers, none raised")
    print(f"slowest: {slowest * 1e3:.2f} ms for {worst[:80]!r} ({len(worst)} characters)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
