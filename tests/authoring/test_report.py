"""The report on what was proven."""

from quizkit.authoring.content import compile_folder
from quizkit.authoring.report import carried_likenesses, lines, report, totals

LESSON = "ratio-pairing/1-shares.md"


def test_a_report_counts_variants_and_tells_the_nearest_slip(folder):
    first, second = report(compile_folder(folder))
    assert (first.id, first.points, first.variants, first.left_out) == ("ratio-pairing/hardener-share", 37, 37, ())
    assert [(slip.part, slip.formula, slip.takes_out) for slip in first.slips] == [("answer", "filler * ratio.a", 0)]
    assert round(first.nearest) == 99  # a hundred times the right answer is 99 times itself away
    assert (second.variants, second.nearest) == (1, None)
    assert totals((first, second)) == {"questions": 2, "points": 38, "let_through": 38, "variants": 38, "left_out": 0}


def test_a_report_says_why_variants_are_left_out(folder):
    file = folder / LESSON
    file.write_text(file.read_text().replace("within 2 %", "within 2 %\nPlausible: 6 mL to 23 mL"))
    (first, _second) = report(compile_folder(folder))
    assert first.left_out == (("not plausible", 2),)
    text = next(iter(lines((first,))))
    assert "35 of 37" in text
    assert "2 not plausible" in text


def test_a_slip_carried_into_a_later_slip_is_counted(folder):
    file = folder / LESSON
    head, rest = file.read_text().split("Answer: ")
    tail = rest.split(":::")[1]
    parts = """Ask a: One?

Answer a: `hardener_for(filler, ratio)` in mL, within 2 %

Slip: `filler` -- All of it.

Ask b: Two?

Answer b: `a * 2` in mL, within 2 %

Slip: `filler * 2` -- Doubled.
:::
"""
    file.write_text(head + parts + tail)
    (first, _second) = report(compile_folder(folder))
    assert first.carried == first.variants == 37
    assert carried_likenesses(compile_folder(folder).pack.question("ratio-pairing/first-step")) == 0
