"""Shares, balancing, beads and volumes worked a second time: from what the trainee reads, with formulas of their own.

Nothing here knows the formulas of the lessons or the sums of the trade. Each function takes the numbers in the order in
which the prompt shows them (of a picture, those that it is drawn from; last those that stand in what is asked) and
works like somebody at the bench: parts, grams and mL, geometry, 1,000 cubic mm to the mL, 1.805 cubic inches to the
fluid ounce (231 / 128, NIST SP 811, read).
"""

import html
import math
import re
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path

import pytest

from quizkit.authoring.content import compile_folder
from quizkit.pack.model import Choice, Numeric, Question

CONTENT = Path(__file__).parents[2] / "content"
MODULES = ("ratio-pairing/", "balancing/", "bead-volume/")
Answers = dict[str, "float | str"]
Work = Callable[..., Answers]
Round = Callable[[float], float]


@cache
def numeric() -> dict[str, Question]:
    """The questions of these modules that ask for a number, by name."""
    pack = compile_folder(CONTENT).pack
    assert pack is not None
    return {
        question.id: question
        for question in pack.questions()
        if question.id.startswith(MODULES) and any(isinstance(part, Numeric) for part in question.parts)
    }


def figures(count: int) -> Round:
    """Rounds to so many figures, as people do after each step."""
    return lambda value: float(f"{value:.{count}g}")


HABITS = {
    "all digits": (math.pi, lambda value: value),
    "3.14 and three figures": (3.14, figures(3)),
    "3.14 and four figures": (3.14, figures(4)),
    "22/7 and three figures": (22 / 7, figures(3)),
    "two decimals": (math.pi, lambda value: round(value, 2) if value >= 1 else figures(2)(value)),
}
"""How people take π, and how they round what they write down; two decimals where no finer step is asked."""


class Hand:
    """A person with a calculator, a value of π and a habit of rounding."""

    def __init__(self, pi: float, rounded: Round) -> None:
        self.pi = pi
        self.r = rounded

    def circle(self, across: float) -> float:
        return self.r(self.pi * across * across / 4)

    def mL(self, area: float, length: float) -> float:
        return self.r(area * length / 1000)

    def percent(self, gap: float, whole: float) -> float:
        return math.copysign(self.r(100 * abs(gap) / whole), gap)


BY_HAND: dict[str, Work] = {}
"""How each question is worked, by its name."""


def works(name: str) -> Callable[[Work], Work]:
    """Notes a function as the way in which a question is worked by hand."""

    def noted(work: Work) -> Work:
        BY_HAND[name] = work
        return work

    return noted


@works("ratio-pairing/hardener-share")
def hardener_share(hand: Hand, base: float, a: float, b: float) -> Answers:
    hardener = hand.r(base / a * b)
    return {"hardener": hardener, "mix": hand.r(base + hardener)}


@works("ratio-pairing/base-for-hardener")
def base_for_hardener(hand: Hand, got: float, a: float, b: float) -> Answers:
    base = hand.r(got / b * a)
    return {"base": base, "mix": hand.r(base + got)}


@works("ratio-pairing/two-panels")
def two_panels(hand: Hand, one: float, two: float, a: float, b: float) -> Answers:
    hardener = hand.r(hand.r(one / a * b) + hand.r(two / a * b))
    return {"hardener": hardener, "mix": hand.r(one + two + hardener)}


@works("ratio-pairing/split-total")
def split_total(hand: Hand, total: float, a: float, b: float) -> Answers:
    part = hand.r(total / (a + b))
    return {"base": hand.r(part * a), "hardener": hand.r(part * b)}


@works("ratio-pairing/part-cartridge")
def part_cartridge(hand: Hand, full: float, a: float, b: float, percent: float) -> Answers:
    there = full * percent / 100
    hardener = hand.r(there / (a + b) * b)
    return {"base": hand.r(there - hardener), "hardener": hardener}


@works("ratio-pairing/of-base-of-mix")
def of_base_of_mix(hand: Hand, percent: float, total: float) -> Answers:
    of_mix = hand.r(100 * percent / (100 + percent))
    return {"of_mix": of_mix, "hardener": hand.r(total * of_mix / 100)}


@works("ratio-pairing/weight-from-volume")
def weight_from_volume(hand: Hand, a: float, b: float, heavy: float, light: float, poured: float) -> Answers:
    number = hand.r(a * heavy / (b * light))
    return {"number": number, "hardener": hand.r(poured / number)}


@works("ratio-pairing/volume-on-scale")
def volume_on_scale(hand: Hand, a: float, b: float, heavy: float, light: float, filler: float) -> Answers:
    number = hand.r(a * heavy / (b * light))
    return {"number": number, "paste": hand.r(filler / number)}


@works("ratio-pairing/find-the-density")
def find_the_density(hand: Hand, cup: float, mass_a: float, mass_b: float, a: float, b: float) -> Answers:
    heavy, light = hand.r(mass_a / cup), hand.r(mass_b / cup)
    return {"heavy": heavy, "number": hand.r(a * heavy / (b * light))}


@works("ratio-pairing/off-by-how-much")
def off_by_how_much(hand: Hand, target: float, _b: float, _a: float, _to: float, a: float, b: float) -> Answers:
    got = hand.r(a / b)
    return {"off": hand.percent(got - target, target), "side": "1" if got > target else "2"}


@works("ratio-pairing/shot-against-shelf")
def shot_against_shelf(hand: Hand, wanted: float, _to: float, a: float, b: float, limit: float) -> Answers:
    meant = hand.r(b * wanted)
    off = hand.percent(a - meant, meant)
    return {"meant": meant, "off": off, "verdict": "1" if abs(off) <= limit else "2" if off > 0 else "3"}


@works("ratio-pairing/paste-by-weight")
def paste_by_weight(hand: Hand, filler: float, percent: float) -> Answers:
    paste = hand.r(filler / 100 * percent)
    return {"paste": paste, "all": filler + paste}


@works("ratio-pairing/fifty-by-weight")
def fifty_by_weight(
    hand: Hand, a: float, b: float, heavy: float, light: float, filler: float, *volumes: float
) -> Answers:
    filled = hand.r(filler / heavy)
    return {"paste": hand.r(filler / a * b), "other": hand.r(filled / volumes[0] * volumes[1] * light)}


@works("ratio-pairing/bores")
def bores(hand: Hand, bore_a: float, bore_b: float, base: float, _base: float) -> Answers:
    number = hand.r(hand.circle(bore_a) / hand.circle(bore_b))
    return {"number": number, "hardener": hand.r(base / number)}


@works("ratio-pairing/still-mixable")
def still_mixable(hand: Hand, a_left: float, b_left: float, a: float, b: float) -> Answers:
    wanted, used = a_left / a * b, min(a_left, b_left / b * a)
    return {"wanted": hand.r(wanted), "mix": hand.r(used + used / a * b)}


@works("ratio-pairing/left-on-scale")
def left_on_scale(hand: Hand, full: float, a: float, b: float, gone: float, _full: float) -> Answers:
    return {"left": full - gone, "hardener": hand.r((full - gone) / (a + b) * b)}


@works("ratio-pairing/enough-hardener")
def enough_hardener(hand: Hand, need: float, a: float, b: float, b_left: float) -> Answers:
    wanted = hand.r(need / (a + b) * b)
    return {"wanted": wanted, "verdict": "1" if b_left >= wanted else "2"}


@works("ratio-pairing/plungers-moved")
def plungers_moved(hand: Hand, bore_a: float, bore_b: float, moved_a: float, moved_b: float) -> Answers:
    out_a, out_b = hand.mL(hand.circle(bore_a), moved_a), hand.mL(hand.circle(bore_b), moved_b)
    return {"out_a": out_a, "out_b": out_b, "lag": "1" if moved_b < moved_a else "2"}


@works("ratio-pairing/air-in-hardener")
def air_in_hardener(hand: Hand, out: float, a: float, b: float, air: float) -> Answers:
    meant = out / a * b
    now, label = hand.r(out / (meant - air)), a / b
    return {"meant": hand.r(meant), "now": now, "lean": hand.r(100 * (now - label) / label)}


@works("balancing/level-gap")
def level_gap(hand: Hand, gap: float, bore: float) -> Answers:
    area = hand.circle(bore)
    return {"area": area, "missing": hand.mL(area, gap)}


@works("balancing/read-the-gap")
def read_the_gap(hand: Hand, bore: float, moved_a: float, moved_b: float) -> Answers:
    gap = abs(moved_a - moved_b)
    return {"gap": gap, "missing": hand.mL(hand.circle(bore), gap), "behind": "1" if moved_a < moved_b else "2"}


@works("balancing/strokes")
def strokes(hand: Hand, gap: float, click: float, bore: float) -> Answers:
    clicks = 1
    while clicks * click < gap:
        clicks += 1
    return {"clicks": clicks, "out": hand.mL(hand.circle(bore), clicks * click)}


@works("balancing/share-missing")
def share_missing(hand: Hand, travel: float, late: float, bore: float) -> Answers:
    return {"part": hand.r(100 * late / travel), "missing": hand.mL(hand.circle(bore), late)}


@works("balancing/late-side")
def late_side(hand: Hand, a: float, b: float, late: float, first: float) -> Answers:
    came = hand.r((first - late) * b / a)
    return {"came": came, "now": hand.r(first / came)}


@works("balancing/hides-in-average")
def hides_in_average(
    hand: Hand, shot: float, a: float, b: float, short: float, first: float, *_asked: float
) -> Answers:
    return {"whole": hand.r(shot / (shot * b / a - short)), "begin": hand.r(first / (first * b / a - short))}


@works("balancing/two-cups")
def two_cups(hand: Hand, gross_a: float, gross_b: float, tare_a: float, tare_b: float) -> Answers:
    net_b = round(gross_b - tare_b, 2)
    return {"net_b": net_b, "number": hand.r((gross_a - tare_a) / net_b)}


@works("balancing/second-pair")
def second_pair(hand: Hand, _a: float, _b: float, a1: float, b1: float, a2: float, b2: float) -> Answers:
    net_b = round(b2 - b1, 2)
    return {"net_b": net_b, "number": hand.r(round(a2 - a1, 2) / net_b)}


@works("balancing/read-the-scale")
def read_the_scale(hand: Hand, tare_b: float, net_a: float, gross_b: float, _step: float) -> Answers:
    net_b = round(gross_b - tare_b, 2)
    return {"net_b": net_b, "number": hand.r(net_a / net_b)}


@works("balancing/in-the-band")
def in_the_band(hand: Hand, target: float, _to: float, percent: float, a: float, b: float) -> Answers:
    low, high = hand.r(target - target * percent / 100), hand.r(target + target * percent / 100)
    got = hand.r(a / b)
    return {"low": low, "high": high, "verdict": "1" if low <= got <= high else "2" if got < low else "3"}


@works("balancing/three-pairs")
def three_pairs(hand: Hand, one: float, two: float, three: float, target: float, limit: float) -> Answers:
    worst = max(hand.r(100 * abs(got - target) / target) for got in (one, two, three))
    spread = round(max(one, two, three) - min(one, two, three), 2)
    return {"worst": worst, "spread": spread, "verdict": "1" if worst <= limit else "2"}


@works("balancing/shelf-shot")
def shelf_shot(hand: Hand, wanted: float, _to: float, a: float, b: float, limit: float) -> Answers:
    number = hand.r(a / b)
    off = hand.percent(number - wanted, wanted)
    return {"number": number, "off": off, "verdict": "1" if abs(off) <= limit else "2"}


@works("balancing/big-enough")
def big_enough(hand: Hand, step: float, percent: float, number: float) -> Answers:
    small = hand.r(step * 100 / percent)
    return {"small": small, "base": hand.r(small * number)}


@works("balancing/nozzle-holds")
def nozzle_holds(hand: Hand, bore: float, length: float, percent: float) -> Answers:
    holds = hand.r(hand.mL(hand.circle(bore), length) * percent / 100)
    return {"holds": holds, "purge": hand.r(holds + holds)}


@works("balancing/purge-clock")
def purge_clock(hand: Hand, holds: float, fills: float, flow: float) -> Answers:
    return {"purge": holds * fills, "seconds_run": hand.r(holds * fills / (flow / 60))}


@works("balancing/purged-enough")
def purged_enough(hand: Hand, holds: float, before: float, after: float, _full: float) -> Answers:
    out, wanted = after - before, holds + holds
    return {"purge": out, "wanted": wanted, "verdict": "1" if out >= wanted else "2"}


@works("balancing/nozzles-a-day")
def nozzles_a_day(hand: Hand, count: float, full: float, holds: float, purge: float) -> Answers:
    lost = count * holds + count * purge
    return {"lost": lost, "usable": full - lost}


@works("balancing/spread-thin")
def spread_thin(hand: Hand, purge: float, thick: float) -> Answers:
    area = hand.r(purge * 1000 / thick / 100)
    return {"area": area, "edge": hand.r(area**0.5)}


@works("balancing/test-bead")
def bead_for_a_test(hand: Hand, purge: float, wide: float, length: float, _drawn: float) -> Answers:
    bead = hand.mL(hand.circle(wide), length)
    return {"bead": bead, "gone": hand.r(purge + bead)}


@works("bead-volume/round-need")
def round_need(hand: Hand, wide: float, path: float, _drawn: float) -> Answers:
    return {"area": hand.circle(wide), "need": hand.mL(hand.circle(wide), path)}


@works("bead-volume/fillet-need")
def fillet_need(hand: Hand, leg: float, path: float, _drawn: float) -> Answers:
    return {"area": hand.r(leg * leg / 2), "need": hand.mL(hand.r(leg * leg / 2), path)}


@works("bead-volume/half-round-need")
def half_round_need(hand: Hand, wide: float, path: float, _drawn: float) -> Answers:
    area = hand.r(hand.pi * (wide / 2) ** 2 / 2)
    return {"area": area, "need": hand.mL(area, path)}


@works("bead-volume/vee-need")
def vee_need(hand: Hand, base: float, height: float, path: float, *_drawn: float) -> Answers:
    area = hand.r(base / 2 * height)
    return {"area": area, "need": hand.mL(area, path)}


@works("bead-volume/strip-need")
def strip_need(hand: Hand, wide: float, deep: float, path: float, *_drawn: float) -> Answers:
    return {"area": wide * deep, "need": hand.mL(wide * deep, path)}


@works("bead-volume/wider-bead")
def wider_bead(hand: Hand, thin: float, path: float, wide: float) -> Answers:
    extra = hand.mL(hand.circle(wide), path) - hand.mL(hand.circle(thin), path)
    return {"times": hand.r(wide * wide / (thin * thin)), "extra": hand.r(extra)}


@works("bead-volume/bond-line")
def bond_line(hand: Hand, flange: float, gap: float, percent: float, *_drawn: float) -> Answers:
    area = hand.r(flange * gap)
    return {"area": area, "bead": hand.r((hand.r(area + area * percent / 100) * 4 / hand.pi) ** 0.5)}


@works("bead-volume/wider-gap")
def wider_gap(hand: Hand, planned: float, found: float, flange: float, path: float, *_drawn: float) -> Answers:
    joint = hand.mL(flange * found, path)
    return {"joint": joint, "extra": hand.r(joint - hand.mL(flange * planned, path))}


@works("bead-volume/two-runs")
def two_runs(hand: Hand, wide: float, one: float, two: float) -> Answers:
    return {"run": one + two, "need": hand.mL(hand.circle(wide), one + two)}


@works("bead-volume/squeeze-out")
def squeeze_out(hand: Hand, laid: float, joint: float) -> Answers:
    return {"out": laid - joint, "part": hand.r(100 - 100 * joint / laid)}


@works("bead-volume/wet-film")
def wet_film(hand: Hand, thick: float, wide: float, path: float, bead: float) -> Answers:
    film = hand.mL(thick * wide, path)
    return {"film": film, "all": hand.r(film + bead)}


@works("bead-volume/skim-coat")
def skim_coat(hand: Hand, thick: float, patch: float, percent: float) -> Answers:
    stays = hand.r(patch * (thick / 10))
    return {"stays": stays, "put_on": hand.r(stays * 100 / (100 - percent))}


@works("bead-volume/cartridges")
def cartridges(hand: Hand, need: float, full: float, behind: float, nozzle: float) -> Answers:
    each, count = full - (behind + nozzle), 1
    while count * each < need:
        count += 1
    return {"each": each, "count": count}


@works("bead-volume/shelf-reach")
def shelf_reach(hand: Hand, full: float, lost: float, wide: float) -> Answers:
    return {"usable": full - lost, "goes": hand.r((full - lost) / hand.circle(wide))}


@works("bead-volume/how-far")
def how_far(hand: Hand, rest: float, lost: float, wide: float, path: float) -> Answers:
    goes = hand.r((rest - lost) / hand.circle(wide))
    return {"goes": goes, "verdict": "1" if goes >= path else "2"}


@works("bead-volume/scale-and-path")
def scale_and_path(hand: Hand, full: float, leg: float, lost: float, gone: float, _full: float) -> Answers:
    return {"rest": full - gone, "goes": hand.r((full - gone - lost) * 2 / (leg * leg))}


@works("bead-volume/feet-from-ounces")
def feet_from_ounces(hand: Hand, ounces: float, wide: float, deep: float) -> Answers:
    area = round(wide * deep, 3)
    return {"area": area, "filled": hand.r(hand.r(ounces * 1.805) / area / 12)}


@works("bead-volume/plan-and-use")
def plan_and_use(hand: Hand, planned: float, used: float, limit: float) -> Answers:
    apart = hand.r(100 * abs(used - planned) / planned)
    return {"apart": apart, "verdict": "1" if apart <= limit else "2"}


def shown_numbers(prompt: str, asks: Iterable[str] = ()) -> list[float]:
    """The numbers of a prompt in their order, fractions too, then those of its picture and those of what is asked."""
    drawn = [value for found in re.findall(r'data-values="([^"]*)"', prompt) for value in found.split()]
    said, asked = (
        re.findall(r"\d+(?:\.\d+)?(?:/\d+)?", html.unescape(re.sub(r"<[^>]+>", "", text)))
        for text in (prompt, " ".join(asks))
    )
    found = (one.partition("/") for one in (*said, *drawn, *asked))
    return [float(top) / float(below or 1) for top, _slash, below in found]


def tried(question: Question, most: int = 12) -> list[int]:
    """Twelve variants from the first to the last; all of them where a decision could hang on a rounding."""
    if any(isinstance(part, Choice) for part in question.parts):
        return list(question.numbers)
    last = len(question.numbers) - 1
    return sorted({question.numbers[round(last * place / (most - 1))] for place in range(most)})


def test_each_question_with_a_number_is_worked_by_hand() -> None:
    """None is missing here, and none is named that is not asked any more."""
    assert set(BY_HAND) == set(numeric())


@pytest.mark.parametrize("name", sorted(BY_HAND))
def test_who_works_it_from_the_prompt_is_marked_right(name: str) -> None:
    """Whatever the habit of rounding: the number is right, and so is the decision that hangs on it."""
    question, judged = numeric()[name], []
    for number in tried(question):
        variant = question.variant(number)
        for habit, (pi, rounded) in HABITS.items():
            shown = shown_numbers(variant.prompt, (part.ask for part in variant.parts))
            answers = BY_HAND[name](Hand(pi, rounded), *shown)
            typed = {part: one if isinstance(one, str) else f"{one:.9g}" for part, one in answers.items()}
            graded = variant.grade(typed)
            judged += [
                (number, habit, part, typed[part], verdict.right)
                for part, verdict in graded.parts.items()
                if verdict.outcome != "right"
            ]
    assert judged == []


WHOLE = (
    ("ratio-pairing/shot-against-shelf", "off", 5),
    ("balancing/shelf-shot", "off", 5),
    ("balancing/three-pairs", "worst", 5),
    ("bead-volume/plan-and-use", "apart", 15),
)
"""Percents that are held against a limit in the next part, and the limit."""


@pytest.mark.parametrize(("name", "part", "limit"), WHOLE)
def test_a_percent_rounded_to_the_whole_never_stands_on_the_limit(name: str, part: str, limit: int) -> None:
    """Where the whole percent is taken as right, it still tells inside from outside."""
    question, on_the_limit = numeric()[name], []
    for number in question.numbers:
        variant = question.variant(number)
        for typed in (str(limit), str(-limit)):
            if variant.grade({part: typed}).parts[part].outcome == "right":
                on_the_limit.append((number, typed, variant.right(part)))
    assert on_the_limit == []
