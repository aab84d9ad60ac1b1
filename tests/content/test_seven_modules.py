"""The seven modules as a trainer finds them: size, shape, words, and the numbers in their examples."""

import re
import shutil
from collections import Counter
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
import textstat  # type: ignore[import-untyped]

from quizkit.authoring.cache import Cache
from quizkit.authoring.content import Compiled, compile_folder
from quizkit.authoring.settings import module_settings
from quizkit.authoring.sheet import read_sheet
from quizkit.authoring.shelf import read_shelf
from quizkit.authoring.source import Source
from quizkit.formula import exact, parse
from quizkit.pack.model import Choice, Numeric, Question, Sheet
from quizkit.pack.sheets import judge_sheet
from quizkit.pack.shelf import Shelf
from quizkit.trade import SUMS
from quizkit.trade.typed import read
from quizkit.units import quantity

CONTENT = Path(__file__).parents[2] / "content"
MODULES = ("applicator-pressure", "balancing", "bead-volume", "billing", "ppe", "ratio-pairing", "storage")
LESSONS = tuple(sorted(path.relative_to(CONTENT).as_posix() for path in CONTENT.glob("*/[0-9]*.md")))
SHEETS = tuple(f"{module}/signoff.md" for module in MODULES)
HIGHEST_GRADE = 8
LEAST_MARKS = 24
NO_HAZARD = ("billing",)
"""Modules at a desk: nothing in them can hurt."""


def source(path: str) -> Source:
    """A file of the content, which must be readable."""
    found, problems = Cache().source(CONTENT, path)
    assert found is not None and not problems
    return found


@cache
def shelf() -> Shelf:
    """The shop's shelf."""
    return read_shelf(source("shelf.md"))[0]


@cache
def compiled() -> Compiled:
    """The whole content, proven."""
    return compile_folder(CONTENT)


@cache
def questions(module: str = "") -> tuple[Question, ...]:
    """All questions, of a module or of all."""
    pack = compiled().pack
    assert pack is not None
    return tuple(question for question in pack.questions() if question.id.startswith(module))


@cache
def sheet(module: str) -> Sheet:
    """The sheet of a module."""
    found, problems = read_sheet(source(f"{module}/signoff.md"), shelf())
    assert found is not None, problems
    return found


def numerics(question: Question) -> list[Numeric]:
    """The numeric parts of a question."""
    return [part for part in question.parts if isinstance(part, Numeric)]


@pytest.mark.parametrize("path", LESSONS)
def test_a_lesson_reads_without_a_problem(path: str) -> None:
    """No lesson of ours has an error or a warning, and a clean pack comes of the whole."""
    assert [str(problem) for problem in compiled().problems if problem.path == path] == []
    assert compiled().pack is not None


def test_the_modules_have_the_size_that_was_asked() -> None:
    """At least 26 lessons and 180 questions, 110 numeric, 35 of several parts, 30 with a picture of their numbers."""
    numeric = [question for question in questions() if numerics(question)]
    drawn = [
        question for question in numeric if "ghs_" not in str(question.prompt) and "figure" in str(question.prompt)
    ]
    assert len(LESSONS) >= 26
    assert len(questions()) >= 180
    assert len(numeric) >= 110
    assert sum(len(question.parts) > 1 for question in numeric) >= 35
    assert len(drawn) >= 30
    assert len({question.id for question in questions()}) == len(questions())


@pytest.mark.parametrize("path", LESSONS)
def test_a_lesson_opens_with_its_cautions_and_ends_with_what_to_remember_and_its_sources(path: str) -> None:
    """Cautions first where something can hurt, a worked example, two to eight to practice, what to keep in mind."""
    text = (CONTENT / path).read_text(encoding="utf-8")
    first = text.split("\n", 2)[2]
    if path.split("/")[0] not in NO_HAZARD:
        assert first.startswith("::: caution")
        box = first.split("\n:::\n", 1)[0]
        for needed in ("What hurts", "What to wear", "First, if it goes wrong", "data sheet", "repair procedure"):
            assert needed in box
    assert "**Worked example.**" in text
    asked = re.findall(r"^::: question .*?^:::$", text, re.M | re.S)
    assert 2 <= sum("\nUse: check\n" not in block for block in asked) <= 8
    tail = text.rsplit("\n:::\n", 1)[1]
    assert "**Remember.**" in tail
    assert re.search(r"^Source: ", tail, re.M)


@pytest.mark.parametrize("question", questions(), ids=lambda question: question.id)
def test_a_numeric_part_has_two_slips_that_teach_and_a_working(question: Question) -> None:
    """Each number asked for has two known mistakes with feedback; the question is worked, and has a topic."""
    assert question.topic
    parts = numerics(question)
    assert not parts or question.working or all(part.working for part in parts)
    for part in parts:
        assert len(part.slips) >= 2
        assert all(len(str(slip.feedback)) > 10 for slip in part.slips)


def test_the_length_of_an_option_does_not_tell_the_right_one() -> None:
    """Whoever picks the longest option of each choice does no better than by chance, nor whoever avoids it."""
    longest = []
    for question in questions():
        (part, *more) = question.parts
        if more or not isinstance(part, Choice) or part.several:
            continue
        shown = question.variant(question.numbers[0])
        sizes = [len(re.sub(r"<[^>]+>", "", text)) for text in shown.parts[0].options]
        right = int(shown.right(part.name)) - 1
        longest.append(sizes[right] == max(sizes))
    assert len(longest) >= 50
    assert 0.15 <= sum(longest) / len(longest) <= 0.45


@pytest.mark.parametrize("module", MODULES)
def test_a_check_draws_enough_marks_and_half_of_its_topics_at_most(module: str) -> None:
    """The least draw has 24 marks; each topic has twice what a check takes, and enough that a check may use."""
    scheme, problems = module_settings(source(f"{module}/module.toml"))
    assert scheme is not None and not problems
    marks = 0
    for topic, count in scheme.check.topics:
        all_of_it = [question for question in questions(module) if question.topic == topic]
        usable = sorted(len(question.parts) for question in all_of_it if question.use != "practice")
        assert len(all_of_it) >= 2 * count, topic
        assert len(usable) >= count, topic
        marks += sum(usable[:count])
    assert marks >= LEAST_MARKS
    assert {question.topic for question in questions(module)} == {topic for topic, _count in scheme.check.topics}


WORDS_A_MINUTE = 140
"""How fast somebody reads who stops to think; an assumption, as is the next."""
MINUTES_A_PART = Fraction(1, 2)


@pytest.mark.parametrize("module", MODULES)
def test_a_module_takes_twenty_to_forty_minutes(module: str) -> None:
    """By its words and by what there is to practice, and by what it says of itself."""
    lessons = [(CONTENT / path).read_text(encoding="utf-8") for path in LESSONS if path.startswith(f"{module}/")]
    bare = [re.sub(r"^::: question .*?^:::$", "", text, flags=re.M | re.S) for text in lessons]
    words = sum(len(re.findall(r"[A-Za-z']+", text)) for text in bare)
    parts = sum(len(question.parts) for question in questions(module) if question.use != "check")
    scheme, _problems = module_settings(source(f"{module}/module.toml"))
    assert scheme is not None and 3 <= len(lessons) <= 5
    assert 20 <= Fraction(words, WORDS_A_MINUTE) + parts * MINUTES_A_PART <= 40
    assert 20 <= scheme.minutes <= 40


TAUGHT = {
    "ppe": (
        *("styrene", "peroxide paste", "isocyanate", "epoxy resin and amine hardener", "methacrylate", "dust", "noise"),
        *(
            "solvent",
            "its own heat",
            "heat cured foam",
            "section 4",
            "Four more stand",
            "Factor",
            "NIOSH",
            "federal OSHA",
        ),
        *(
            "÷ by 8|divide by 8",
            "Vapors act on one body",
            "Breakthrough",
            "Z87+",
            "No solvent on skin",
            "fire",
            "static",
        ),
        *("A spill", "Three wastes", "air off and bled", "fit test", "licensed health professional"),
        *("A mask comes last", "vapor cartridge", "mg/m³", "ASTM F739", "nerves and hearing"),
    ),
    "ratio-pairing": (
        *(
            "50:1",
            "10:1",
            "4:1",
            "2:1",
            "1:1",
            "by volume",
            "by weight",
            "port",
            "short wide",
            "splitting a total",
            "lean in hardener",
        ),
        *("50:1 by weight", "an inlet for each port", "It feels", "First material out", "A cap belongs"),
        *("repair procedure names",),
    ),
    "applicator-pressure": (
        *(
            "Too much air",
            "bar",
            "kPa",
            "counted from closed",
            "half a turn",
            "A timed shot",
            "Hand speed",
            "Cut it square",
        ),
        *("open time", "Before the air", "Bleed the line"),
    ),
    "balancing": (
        *("Seat", "square", "before the nozzle goes on", "after each storage", "own cloth", "Purge", "A heap gets hot"),
        *("test bead", "tare", "Big enough for the scale", "throw away", "comes off again", "air off again"),
    ),
    "bead-volume": (
        *("round", "fillet", "V bead", "skim coat", "bond line", "squeeze-out", "stays behind", "nozzle", "round up"),
        *("How far does it go", "Wet out", "filled and purged", "1.805 cubic inches"),
    ),
    "storage": (
        *(
            "Nozzle on or plug in",
            "initials",
            "printed",
            "First to end",
            "°C",
            "log",
            "Peroxide lives alone",
            "accelerator",
            "acetone",
        ),
        *("Warming before use", "No heat gun", "Hang the thermometer", "Three cans", "dated-out cartridge"),
    ),
    "billing": (
        *("Two readings", "share of the cartridge", "Markup", "margin", "Nozzles are counted", "purge", "least charge"),
        *(
            "by line",
            "by ticket",
            "Nothing twice",
            "What an insurer takes",
            "lots",
            "procedure",
            "Month end",
            "thrown out",
            "scrap list",
        ),
    ),
}
"""What each module has to teach, by the words with which its lessons do; '|' parts two ways of saying it."""


@pytest.mark.parametrize("module", MODULES)
def test_a_module_teaches_what_it_has_to(module: str) -> None:
    """In the text of its lessons, not only in a question."""
    text = " ".join((CONTENT / path).read_text(encoding="utf-8") for path in LESSONS if path.startswith(f"{module}/"))
    bare = re.sub(r"^::: question .*?^:::$", "", text, flags=re.M | re.S).lower()
    missing = [words for words in TAUGHT[module] if not any(way.lower() in bare for way in words.split("|"))]
    assert missing == []


PPE_ASKED = (
    *("styrene", "peroxide paste", "isocyanate", "epoxy resin and amine hardener", "methacrylate", "sanding dust"),
    *("the sander makes", "thinner", "cup of mix", "a torch", "section 6", "star on a chest", "factor", "federal OSHA"),
    *("average over 8 hours", "three shares", "your glove", "D3", "your wrist", "flame come out", "from static"),
    *("falls over", "rag with thinner", "bleed it", "fit test", "says that you are well enough"),
)
"""What hurts and what helps, by the words with which a question of the protection module asks for it."""


def test_each_hazard_of_the_protection_module_is_asked() -> None:
    """What is taught about getting hurt stands in a question too, and a check can ask it or practice does."""
    text = " ".join((CONTENT / path).read_text(encoding="utf-8") for path in LESSONS if path.startswith("ppe/"))
    asked = " ".join(re.findall(r"^::: question .*?^:::$", text, re.M | re.S)).lower()
    assert [words for words in PPE_ASKED if words.lower() not in asked] == []


MARKED = ("(read)", "(copy)", "(memory)", "(computed)", "common practice", "this shop's own")


@pytest.mark.parametrize("path", (*LESSONS, *SHEETS))
def test_each_source_says_how_it_was_obtained(path: str) -> None:
    """Read, copied, recalled, worked out here, or the practice of the trade."""
    sources = re.findall(r"^Source: .*$", (CONTENT / path).read_text(encoding="utf-8"), re.M)
    assert sources
    assert [line for line in sources if not any(mark in line for mark in MARKED)] == []


SHELF_FIELDS = (
    *("family", "ratio", "cartridge", "density_a", "density_b", "price", "flow_screw", "inlet_limit", "open_time"),
    *("nozzle_time", "clamp_time", "closed_months", "opened_months", "lowest_work", "store_limit", "hazards"),
)


def test_the_shelf_has_all_families_and_ratios_and_says_that_it_is_invented() -> None:
    """About twelve invented materials, no field of a row left blank."""
    pairings = Counter(str(row.field("ratio")) for row in shelf().rows)
    assert 10 <= len(shelf().rows) <= 14
    assert {column.field for column in shelf().columns} >= set(SHELF_FIELDS)
    for wanted in (
        "50:1 by volume",
        "50:1 by weight",
        "10:1 by volume",
        "4:1 by volume",
        "2:1 by volume",
        "1:1 by volume",
    ):
        assert pairings[wanted]
    assert {"filler", "glaze", "adhesive", "sealer", "foam", "resin"} <= {row.field("family") for row in shelf().rows}
    assert all(row.field(column.field) is not None for row in shelf().rows for column in shelf().columns)
    assert "invented" in (CONTENT / "shelf.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("module", MODULES)
def test_a_sheet_has_critical_steps_a_material_and_a_judge(module: str) -> None:
    """What must be seen is marked, and something is measured and judged."""
    found = sheet(module)
    assert sum(step.critical for step in found.steps) >= 2
    assert found.materials and found.measures and found.judges
    assert all(judge.feedback for judge in found.judges)


@pytest.mark.parametrize(
    ("shot_a", "accepted"),
    [("23.2 g", True), ("24.3 g", True), ("24.4 g", False), ("22.0 g", True), ("21.9 g", False)],
)
def test_the_pairing_sheet_takes_a_shot_inside_five_percent_only(shot_a: str, accepted: bool) -> None:
    """2:1 by volume at 1.10 and 0.95 g/mL is 2.3158 by weight (computed): for 10 g of B, 22.0 to 24.3 g of A."""
    (judge,) = [judge for judge in sheet("ratio-pairing").judges if judge.name == "pair_off_ratio"]
    row = next(row for row in shelf().rows if row.name == "Keel adhesive")
    weight_ratio = row.field("weight_ratio")
    assert isinstance(weight_ratio, Fraction) and judge.low is not None and judge.high is not None
    values = {
        "shot_a": quantity(shot_a).value,
        "shot_b": quantity("10 g").value,
        "material.weight_ratio": weight_ratio,
    }
    off = exact(parse(judge.formula), values)
    assert isinstance(off, Fraction)
    assert (judge.low <= off <= judge.high) is accepted


def judged(module: str, judge_name: str, measured: Mapping[str, str]) -> bool:
    """Whether what was measured at the bench is inside what a judge of a sheet asks, without rounding."""
    (judge,) = [judge for judge in sheet(module).judges if judge.name == judge_name]
    row = next(row for row in shelf().rows if row.name == "Keel adhesive")
    values = {name: quantity(text).value for name, text in measured.items()}
    values |= {f"material.{name}": value for name, value in row.fields if isinstance(value, Fraction)}
    got = exact(parse(judge.formula), values)
    assert isinstance(got, Fraction)
    return (judge.low is None or judge.low <= got) and (judge.high is None or got <= judge.high)


@pytest.mark.parametrize(
    ("judge_name", "measured", "accepted"),
    [
        ("inlet_to_limit", {"inlet": "85 psi"}, True),
        ("inlet_to_limit", {"inlet": "86 psi"}, False),
        ("second_shot_to_first", {"shot_one": "50 g", "shot_two": "45 g"}, True),
        ("second_shot_to_first", {"shot_one": "50 g", "shot_two": "44.9 g"}, False),
        ("second_shot_to_first", {"shot_one": "50 g", "shot_two": "55.1 g"}, False),
        ("screw_off_label", {"screw": "1.5 turns"}, True),
        ("screw_off_label", {"screw": "2.75 turns"}, False),
        ("widest_to_narrowest", {"width_one": "8 mm", "width_two": "10 mm", "width_end": "9 mm"}, True),
        ("widest_to_narrowest", {"width_one": "8 mm", "width_two": "9 mm", "width_end": "10.1 mm"}, False),
    ],
)
def test_the_pressure_sheet_refuses_what_is_over_its_limits(
    judge_name: str, measured: dict[str, str], accepted: bool
) -> None:
    """At the limit is inside: 85 psi and half a turn off 2 (the label), a tenth between shots, a quarter in width."""
    assert judged("applicator-pressure", judge_name, measured) is accepted


def test_the_balancing_sheet_judges_each_pair_by_itself() -> None:
    """The cups are not emptied: 2.3158 by weight (computed) is 46.3 g to 20 g; one bad pair hides behind no other."""
    weighed = {"tare_a": "3 g", "tare_b": "3 g", "gross_a1": "49.3 g", "gross_b1": "23 g", "gross_a2": "98.5 g"}
    weighed |= {"gross_b2": "43 g", "gross_a3": "144.8 g", "gross_b3": "63 g", "scale_step": "0.1 g"}
    pairs = ("first", "second", "third")
    assert [judged("balancing", f"{one}_pair_off_ratio", weighed) for one in pairs] == [True, False, True]
    assert judged("balancing", "smallest_step_of_shot", weighed)
    assert not judged("balancing", "smallest_step_of_shot", weighed | {"gross_b2": "32.9 g"}), (
        "the second pair has 9.9 g of B"
    )


@pytest.mark.parametrize(("thinnest", "accepted"), [("8 mm", True), ("7.6 mm", True), ("7.5 mm", False)])
def test_an_even_bead_that_is_thinner_than_asked_is_refused(thinnest: str, accepted: bool) -> None:
    """A twentieth under the width of the procedure, no more, wherever the bead is at its thinnest."""
    laid = {"asked": "8 mm", "wide_one": "8 mm", "wide_two": thinnest, "wide_end": "8 mm"}
    assert judged("bead-volume", "widest_to_narrowest", laid)
    assert judged("bead-volume", "thinnest_to_asked", laid) is accepted


def test_the_thinnest_bead_that_is_taken_still_fills_the_joint() -> None:
    """The area goes with the width times itself (geometry), and the lessons lay 15 % over the joint at least."""
    (judge,) = [judge for judge in sheet("bead-volume").judges if judge.name == "thinnest_to_asked"]
    assert judge.low is not None
    assert judge.low**2 * Fraction(115, 100) >= 1


@pytest.mark.parametrize(
    ("laying", "bay_open", "accepted"),
    [("12 min", "12 min", True), ("12.1 min", "14 min", False), ("6 min", "6 min", True), ("6.1 min", "6 min", False)],
)
def test_a_hot_bay_shortens_what_the_bond_sheet_takes_and_a_cold_one_never_lengthens_it(
    laying: str, bay_open: str, accepted: bool
) -> None:
    """The label's 12 min at 20 °C are half at 30 °C: Q10 = 2, the default of ASTM F1980 (copy)."""
    assert judged("bead-volume", "open_time_used", {"laying": laying, "bay_open": bay_open}) is accepted


def read_aloud(path: str) -> str:
    """The prose of a file: without tables, formulas and marks; each option and step a sentence."""
    text = re.sub(r"^(\||#|:::).*$", "", (CONTENT / path).read_text(encoding="utf-8"), flags=re.M)
    text = re.sub(r"^(Answer|Where|Figure|Plausible|Topic|Critical|Use|Source|Material)\b.*$", "", text, flags=re.M)
    text = re.sub(r"^(Slip|Judge)\b.*? -- ", "", text, flags=re.M)
    text = re.sub(r"^(Ask|Working|Order)( \w+)?: ?", "", text, flags=re.M)
    text = re.sub(
        r"^(?:- \[.*?\]|\d+\. !?) *(.*)$", lambda found: found[1].replace(" -- ", ". ") + ".", text, flags=re.M
    )
    return re.sub(r"`[^`]*`", "it", text).replace("**", "")


@pytest.mark.parametrize("path", (*LESSONS, *SHEETS))
def test_a_lesson_reads_at_grade_eight_or_below(path: str) -> None:
    """Two indices of textstat, neither of which needs a word list from the net; no exceptions are needed."""
    text = read_aloud(path)
    assert textstat.automated_readability_index(text) <= HIGHEST_GRADE
    assert textstat.coleman_liau_index(text) <= HIGHEST_GRADE


EXAMPLES = (
    # lesson, what stands there, the sum, what goes in, what comes out, in which unit
    ("ppe/1-air.md", "195 ÷ 8 = 24.4 ppm", "twa", ("60 ppm", "2 h", "25 ppm", "3 h", "0 ppm", "3 h"), "24.4 ppm"),
    ("ppe/1-air.md", "= 1.03", "mixture", ("120 ppm", "250 ppm", "25 ppm", "100 ppm", "30 ppm", "100 ppm"), "1.03"),
    ("ppe/1-air.md", "÷ 24.45 = 85 mg/m³", "ppm_to_mg", ("20 ppm", "104.2 g/mol"), "85 mg/m3"),
    ("ppe/2-masks.md", "So the top is 700 ppm", "max_use", ("25", "50 ppm", "700 ppm"), "700 ppm"),
    ("ppe/3-hands-ears-eyes.md", "That is 5 pairs", "glove_pairs", ("45 min", "20 min"), "5"),
    ("ppe/3-hands-ears-eyes.md", "Together 75 %", "noise_dose", ("95 dBA", "2 h", "100 dBA", "0.5 h"), "75 %"),
    ("ratio-pairing/1-shares.md", "÷ 10 = 12 mL", "hardener_for", ("120 mL", "10:1 by volume"), "12 mL"),
    ("ratio-pairing/1-shares.md", "is 120 mL of A and 60", "share_a", ("180 mL", "2:1 by volume"), "120 mL"),
    ("ratio-pairing/1-shares.md", "of mix it is 9.1 %", "share_of_mix", ("10 %",), "9.1 %"),
    ("ratio-pairing/2-by-weight.md", "= 5.09", "weight_ratio", ("4:1 by volume", "1.40 g/mL", "1.10 g/mL"), "5.09"),
    ("ratio-pairing/2-by-weight.md", "That is 5.9 % off, and rich", "off_ratio", ("46.0 g", "9.6 g", "5.09"), "-5.9 %"),
    ("ratio-pairing/3-supply.md", "3.17 × 3.17 = 10.0", "bore_ratio", ("38 mm", "12 mm"), "10.0"),
    ("ratio-pairing/3-supply.md", "= 174 mL", "mixable", ("130 mL", "58 mL", "2:1 by volume"), "174 mL"),
    ("ratio-pairing/3-supply.md", "96 ÷ 18 = 5.33", "starved_ratio", ("96 mL", "24 mL", "6 mL"), "5.33"),
    ("ratio-pairing/3-supply.md", "so it is 12.6 mL", "plunger_volume", ("40 mm", "10 mm"), "12.6 mL"),
    ("applicator-pressure/1-pressure.md", "= 283 pounds", "rod_push", ("90 psi", "2 in"), "283 lbf"),
    ("applicator-pressure/2-flow.md", "is 150 mL a minute", "flow_rate", ("45 mL", "18 s"), "150 mL/min"),
    (
        "applicator-pressure/2-flow.md",
        "is 160 mL a minute",
        "flow_by_weight",
        ("52 g", "1.30 g/mL", "15 s"),
        "160 mL/min",
    ),
    ("applicator-pressure/2-flow.md", "= 2.25 times", "tip_gain", ("6 mm", "9 mm"), "2.25"),
    (
        "applicator-pressure/3-time.md",
        "leaves 180 s to spare",
        "time_to_spare",
        ("6 min", "2400 mm", "40 mm/s", "120 s"),
        "180 s",
    ),
    ("applicator-pressure/3-time.md", "= 39.8 mm a second", "bead_speed", ("120 mL/min", "50.2 mm2"), "39.8 mm/s"),
    ("balancing/1-level.md", "or 4.5 mL", "plunger_volume", ("38 mm", "4 mm"), "4.5 mL"),
    ("balancing/2-shots.md", "24.5 ÷ 10.5 = 2.33", "shot_ratio", ("27.4 g", "2.9 g", "13.6 g", "3.1 g"), "2.33"),
    ("balancing/3-purge.md", "or 11 mL", "nozzle_volume", ("10 mm", "200 mm", "70 %"), "11 mL"),
    ("balancing/1-level.md", "60 to 29, or 2.07", "starved_ratio", ("60 mL", "30 mL", "1 mL"), "2.07"),
    ("balancing/1-level.md", "That is 3 to 1", "starved_ratio", ("6 mL", "3 mL", "1 mL"), "3"),
    ("bead-volume/1-beads.md", "so it takes 75.4 mL", "bead_volume", ("50.24 mm2", "1500 mm"), "75.4 mL"),
    ("bead-volume/3-cartridges.md", "So it goes 2.25 m", "reach", ("140 mL", "27 mL", "50.24 mm2"), "2.25 m"),
    ("bead-volume/3-cartridges.md", "That is 16 feet", "bead_length", ("10 fl oz", "0.09375 in2"), "16 ft"),
    ("bead-volume/2-joint.md", "is 4.3 mm wide", "joint_bead", ("25 mm", "0.5 mm", "15 %"), "4.3 mm"),
    ("bead-volume/2-joint.md", "180 ÷ 0.60 = 300 mL", "coat_volume", ("900 cm2", "2 mm", "40 %"), "300 mL"),
    (
        "bead-volume/3-cartridges.md",
        "You need 3, not 2",
        "cartridges_needed",
        ("375 mL", "200 mL", "5 mL", "22 mL"),
        "3",
    ),
    ("storage/2-heat.md", "6 min at 20 °C is 3.7 min at 27 °C", "warm_time", ("6 min", "27 °C", "20 °C"), "3.7 min"),
    ("storage/3-stock.md", "24 - 20 = 4", "surplus", ("24", "5", "4"), "4"),
    ("storage/3-stock.md", "2 more is 10.6", "reorder_at", ("6", "10 day", "2"), "10.6"),
    (
        "billing/1-what-was-used.md",
        "× $46.00 = $19.55",
        "used_cost",
        ("30 mL", "115 mL", "200 mL", "$46.00"),
        "$19.55",
    ),
    ("billing/2-what-to-charge.md", "× 1.40 = $27.37", "with_markup", ("$19.55", "40 %"), "$27.37"),
    ("billing/2-what-to-charge.md", "÷ 0.60 = $32.58", "at_margin", ("$19.55", "40 %"), "$32.58"),
    (
        "billing/3-total-and-month-end.md",
        "together $0.30",
        "taxed_by_line",
        ("7 %", "$1.49", "$1.49", "$1.49"),
        "$0.30",
    ),
    ("billing/3-total-and-month-end.md", "so $0.31", "taxed_by_ticket", ("7 %", "$1.49", "$1.49", "$1.49"), "$0.31"),
    ("billing/3-total-and-month-end.md", "29 were used", "stock_used", ("15", "24", "9", "1"), "29"),
)
"""The worked examples, each figure as printed. The first two are the methods of 29 CFR 1910.1000(d) (read), styrene's
85 mg/m³ is NIOSH's 4.26 a ppm (read), the mask NIOSH's own figure for styrene (read), the noise 29 CFR 1910.95 App. A
(read); the rest were computed by hand."""


@pytest.mark.parametrize(("path", "words", "name", "given", "printed"), EXAMPLES)
def test_a_worked_example_comes_out_as_printed(
    path: str, words: str, name: str, given: tuple[str, ...], printed: str
) -> None:
    """What a lesson prints is what the sum gives, to half of the last printed place."""
    assert words in (CONTENT / path).read_text(encoding="utf-8")
    wanted = quantity(printed)
    got = float(SUMS[name].function(*(read("ratio" if ":" in text else "", text).value for text in given)))
    places = len(printed.split(" ")[0].partition(".")[2])
    assert abs(got - float(wanted.value)) <= 0.5001 * 10**-places * float(wanted.unit.factor)


def table_under(path: str, head: str) -> list[tuple[str, ...]]:
    """The columns of every table of a lesson whose first cell is `head`, as typed."""
    text = (CONTENT / path).read_text(encoding="utf-8")
    columns: list[tuple[str, ...]] = []
    for rows in re.findall(rf"^(\| {re.escape(head)} .*\n(?:\|.*\n)+)", text, re.M):
        top, _rule, *below = [[cell.strip() for cell in row.strip("|").split("|")] for row in rows.splitlines()]
        columns += list(zip(top, *below, strict=True))[1:]
    return columns


def test_the_table_of_ratios_has_what_each_ratio_means() -> None:
    """Hardener to 100 mL of base, and the mix: the meaning of a ratio by volume, common practice."""
    rows = rows_under("ratio-pairing/1-shares.md", "Ratio")
    assert list(rows) == ["50:1", "10:1", "4:1", "2:1", "1:1"]
    for ratio, (hardener, mix, _where) in rows.items():
        parts = Fraction(ratio.split(":")[0])
        assert quantity(hardener).value == quantity("100 mL").value / parts
        assert quantity(mix).value == quantity("100 mL").value + quantity("100 mL").value / parts
        base = SUMS["base_for"].function(quantity(hardener).value, read("ratio", f"{ratio} by volume").value)
        assert base == quantity("100 mL").value


LINES = {
    # question and part: where the decision changes, as typed
    ("ppe/day-average", "average"): ("50",),
    ("ppe/three-solvents", "shares"): ("1",),
    ("ppe/noise-dose", "dose"): ("50", "100"),
}


@pytest.mark.parametrize(("name", "part"), LINES)
def test_a_number_that_is_marked_right_decides_right(name: str, part: str) -> None:
    """The limit itself is never near enough to be right, so all that is taken stands on its right side."""
    (question,) = (one for one in questions("ppe") if one.id == name)
    taken = [
        (number, typed)
        for number in question.numbers
        for typed in LINES[name, part]
        if question.variant(number).grade({part: typed}).parts[part].outcome == "right"
    ]
    assert taken == []


LIMITS = {
    # NIOSH REL, NIOSH short time, federal OSHA PEL: NIOSH Pocket Guide and OSHA Tables Z-1, Z-2 (read)
    "styrene": ("50 ppm", "100 ppm", "100 ppm"),
    "toluene": ("100 ppm", "150 ppm", "200 ppm"),
    "xylenes": ("100 ppm", "150 ppm", "100 ppm"),
    "acetone": ("250 ppm", "none", "1000 ppm"),
    "methyl methacrylate": ("100 ppm", "none", "100 ppm"),
}


def rows_under(path: str, head: str) -> dict[str, tuple[str, ...]]:
    """The rows of the first table of a lesson whose first cell is `head`, by their own first cells."""
    text = (CONTENT / path).read_text(encoding="utf-8")
    found = re.search(rf"^\| {re.escape(head)} .*\n\|[-| ]+\n((?:\|.*\n)+)", text, re.M)
    assert found is not None
    cells = [[cell.strip() for cell in row.strip("|").split("|")] for row in found[1].splitlines()]
    return {first: tuple(rest) for first, *rest in cells}


def test_the_limits_of_the_air_lesson_are_those_of_the_agencies() -> None:
    """Each with its agency: NIOSH Pocket Guide, and federal OSHA Tables Z-1 and Z-2 (read)."""
    assert rows_under("ppe/1-air.md", "Vapor") == LIMITS


def test_the_factors_of_the_mask_lesson_are_those_of_federal_osha() -> None:
    """29 CFR 1910.134, Table 1 (read)."""
    factors = {mask: row[0] for mask, row in rows_under("ppe/2-masks.md", "Mask (federal OSHA)").items()}
    assert factors == {
        "half mask, cleans the air": "10",
        "full facepiece, cleans the air": "50",
        "loose hood, powered": "25",
        "half mask, powered": "50",
        "full facepiece, powered": "1,000",
        "half mask, steady air by a hose": "50",
    }


def test_the_glove_classes_are_those_of_the_standard() -> None:
    """EN 374 (read): a glove just over the minutes of a row is in its class, and at them in the one below."""
    classes = rows_under("ppe/3-hands-ears-eyes.md", "Class")
    assert len(classes) == 6
    for grade, (minutes,) in classes.items():
        at = quantity(minutes).value
        assert (SUMS["glove_class"].function(at), SUMS["glove_class"].function(at + 1)) == (int(grade) - 1, int(grade))


def test_the_noise_tables_are_those_of_the_rule() -> None:
    """Hours allowed at each level: 29 CFR 1910.95, App. A, T = 8 / 2^((L - 90) / 5) (read), to the printed digit."""
    columns = table_under("ppe/3-hands-ears-eyes.md", "dBA")
    assert len(columns) >= 25
    for level, hours in columns:
        by_rule = 8 / 2 ** ((int(level) - 90) / 5)
        assert abs(float(hours) - by_rule) <= 0.05
        assert float(SUMS["noise_time"].function(quantity(f"{level} dBA").value)) / 3600 == pytest.approx(by_rule)


def test_the_heat_tables_halve_in_ten_degrees() -> None:
    """What is left of a time over 20 °C: Q10 = 2, ASTM F1980's default (copy), to the printed percent."""
    columns = table_under("storage/2-heat.md", "°C over 20")
    assert len(columns) >= 25
    for over, left in columns:
        by_rule = 100 / 2 ** (int(over) / 10)
        assert abs(float(left) - by_rule) <= 0.51
        hot = quantity(f"{20 + int(over)} °C").value
        one = float(SUMS["warm_time"].function(Fraction(100), hot, quantity("20 °C").value))
        assert one == pytest.approx(by_rule)


TABLED = (
    # question, part, the time on the sheet, the warm place: what is left is read off the table in the prompt
    ("storage/hot-bay", "open", "sheet", "bay", "min", 1),
    ("storage/warm-store", "keeps", "life", "store", "week", 0),
)


@pytest.mark.parametrize(("name", "part", "time", "place", "symbol", "digits"), TABLED)
def test_a_time_from_the_printed_table_is_right_though_both_are_rounded(
    name: str, part: str, time: str, place: str, symbol: str, digits: int
) -> None:
    """Whoever takes the printed percent, and rounds as the box asks, is right in every variant."""
    pack = compiled().pack
    assert pack is not None
    question = pack.question(name)
    left = {Fraction(over): Fraction(percent) / 100 for over, percent in table_under("storage/2-heat.md", "°C over 20")}
    for number in question.numbers:
        variant = question.variant(number)
        full, warm = (variant.values[given] for given in (time, place))
        assert isinstance(full, Fraction) and isinstance(warm, Fraction)
        read_off = full / quantity(f"1 {symbol}").value * left[warm - quantity("20 °C").value]
        graded = variant.grade({part: f"{float(read_off):.{digits}f}"})
        assert graded.parts[part].outcome == "right", (number, float(read_off))


@pytest.mark.parametrize(
    ("name", "part"),
    [
        ("storage/lost-money", "part"),
        ("storage/month-count", "part"),
        ("billing/back-to-cost", "margin"),
        ("billing/month-used", "part"),
    ],
)
def test_a_percent_rounded_to_the_whole_is_right(name: str, part: str) -> None:
    """Nobody at a desk needs a tenth of a percent: the nearest whole one earns the mark in every variant."""
    pack = compiled().pack
    assert pack is not None
    question = pack.question(name)
    for number in question.numbers:
        variant = question.variant(number)
        true = variant.values[part]
        assert isinstance(true, Fraction)
        whole = f"{float(100 * true):.0f}"
        assert variant.grade({part: whole}).parts[part].outcome == "right", (number, whole, float(true))


def test_a_scale_that_is_read_half_a_mark_off_still_earns_the_mark_for_the_money() -> None:
    """5 mL more than the picture shows is taken as read; its share of the price, to the cent, is then right as well."""
    pack = compiled().pack
    assert pack is not None
    question = pack.question("billing/used-cost")
    for number in question.numbers:
        variant = question.variant(number)
        start, finish, full, price = (variant.values[given] for given in ("start", "finish", "full", "price"))
        assert isinstance(start, Fraction) and isinstance(finish, Fraction)
        assert isinstance(full, Fraction) and isinstance(price, Fraction)
        out = finish - start + 5 * quantity("1 mL").value
        cents = (out / full * price * 100 + Fraction(1, 2)) // 1
        typed = {"out": f"{float(out / quantity('1 mL').value):g}", "cost": f"{cents / 100:.2f}"}
        assert {one.outcome for one in variant.grade(typed).parts.values()} == {"right"}, (number, typed)


@pytest.mark.parametrize(
    ("changed", "refused"),
    [
        ({}, set()),
        ({"charge": "33.87", "total": "36.24"}, set()),
        ({"charge": "27.37", "taxed": "1.92", "total": "29.29"}, {"charge_off_by"}),
        ({"charge": "40.32", "taxed": "2.82", "total": "43.14"}, {"charge_off_by"}),
        ({"lowest": "40", "charge": "40.00", "taxed": "2.80", "total": "42.80"}, set()),
        ({"lowest": "40", "charge": "73.87", "taxed": "5.17", "total": "79.04"}, {"charge_off_by"}),
        ({"taxed": "2.38", "total": "36.25"}, {"tax_off_by"}),
        ({"total": "36.25"}, {"total_off_by"}),
        ({"after": "116"}, {"cost_off_by"}),
    ],
)
def test_the_billing_sheet_refuses_a_charge_that_does_not_follow(changed: dict[str, str], refused: set[str]) -> None:
    """85 of 200 mL at $46.00 and two nozzles at $2.32, 40 % markup, 7 % tax: $19.55, $4.64, $33.87, $2.37, $36.24.

    Worked by hand (computed): nozzles left out, a margin for the markup, the least charge added on top.
    """
    typed = {"before": "30", "after": "115", "billed": "19.55", "nozzles": "4.64", "share": "40", "lowest": "8"}
    typed |= {"charge": "33.87", "rate": "7", "taxed": "2.37", "total": "36.24"}
    row = next(row for row in shelf().rows if row.name == "Keel adhesive")
    judged = judge_sheet(sheet("billing"), typed | changed, row)
    assert {one.name for one in judged.judges if not one.satisfied} == refused


def with_shelf(folder: Path, kept: tuple[str, ...], blank: tuple[str, ...]) -> Compiled:
    """The content of a shop that stocks few of the materials and does not know all of their cells."""
    shutil.copytree(CONTENT, folder)
    rows = (CONTENT / "shelf.md").read_text(encoding="utf-8").splitlines()
    head = next(row for row in rows if row.startswith("| name"))
    places = [place for place, cell in enumerate(head.split("|")) if cell.strip() in blank]
    assert len(places) == len(blank)
    lines = []
    for row in rows:
        cells = row.split("|")
        name = cells[1].strip() if len(cells) > 2 else "name"
        if name == "name" or name.startswith("---"):
            lines.append(row)
        elif name in kept:
            lines.append("|".join(" " if place in places else cell for place, cell in enumerate(cells)))
    (folder / "shelf.md").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return compile_folder(folder)


def test_a_shelf_in_the_units_of_its_own_sheets_asks_all_the_same(tmp_path: Path) -> None:
    """°F and bar for °C and psi, in heading and cells: every question stands, and no cell is taken for a slip."""
    shutil.copytree(CONTENT, tmp_path / "content")
    rows = [row.split("|") for row in (CONTENT / "shelf.md").read_text(encoding="utf-8").splitlines()]
    head = next(row for row in rows if len(row) > 2 and row[1].strip() == "name")
    for title, other in (("lowest work", "°F"), ("store limit", "°F"), ("inlet limit", "bar")):
        place = next(place for place, cell in enumerate(head) if cell.strip().startswith(title))
        for row in rows:
            if row is not head and len(row) > 2 and not row[1].startswith("--") and not row[1].startswith(" --"):
                value = Fraction(row[place].strip())
                row[place] = f" {float(value * 9 / 5 + 32 if other == '°F' else value / Fraction('14.5038')):.4f} "
        head[place] = f" {title} ({other}) "
    (tmp_path / "content/shelf.md").write_text("\n".join("|".join(row) for row in rows) + "\n", encoding="utf-8")
    made = compile_folder(tmp_path / "content")
    assert [str(problem) for problem in made.problems if problem.severity != "notice"] == []
    assert made.pack is not None
    assert {question.id for question in made.pack.questions()} == {question.id for question in questions()}


@pytest.mark.parametrize(
    ("kept", "blank"),
    [
        (("Keel adhesive",), ()),
        (("Brindle filler", "Sedge sealer"), ("glove time (min)",)),
        (("Quern filler", "Keel adhesive", "Sedge sealer"), ("clamp time (h)", "nozzle time (min)")),
    ],
)
def test_a_shop_with_few_materials_gets_a_whole_check(
    tmp_path: Path, kept: tuple[str, ...], blank: tuple[str, ...]
) -> None:
    """What the shop can't ask is left out with a notice; what stays is enough, each question with 30 variants."""
    made = with_shelf(tmp_path / "content", kept, blank)
    assert [str(problem) for problem in made.problems if problem.severity == "error"] == []
    assert not {"M09", "M10", "P03", "P04"} & {problem.code for problem in made.problems}
    assert made.pack is not None
