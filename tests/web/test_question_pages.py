"""The trainer's pages of questions: how they were answered, and any of them with its key."""

import html
import re
from dataclasses import replace
from fractions import Fraction
from itertools import islice
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.formula import Even, Given
from quizkit.pack.model import Numeric, Question
from quizkit.scoring.tolerance import Tolerance
from quizkit.shop.asking import part_views, question_view
from quizkit.units import quantity, unit

if TYPE_CHECKING:
    from conftest import Bench


def test_every_module_leads_to_its_questions(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    assert 'href="/questions"' in browser.get("/office").text
    page = browser.get("/questions").text
    assert [one.id for one in bench.pack.modules if f'href="/questions/{one.scheme.skill}"' not in page] == []


def test_with_few_people_the_page_says_words_and_no_figures(bench: "Bench") -> None:
    bench.pass_check(bench.people.apprentice, "ppe")
    answer = bench.browser("trainer").get("/questions/ppe")
    assert answer.status_code == 200
    assert "1 person, 1 full check." in answer.text and "Below 20 people" in answer.text
    assert "Nobody missed this." in answer.text and "KR-20" not in answer.text and "<svg" not in answer.text


def test_every_question_of_a_skill_can_be_opened_from_its_list(bench: "Bench") -> None:
    page = bench.browser("trainer").get("/questions/ppe").text
    (module,) = [one for one in bench.pack.modules if one.id == "ppe"]
    assert any(one.use == "practice" for one in module.questions)
    assert [one.id for one in module.questions if f'href="/questions/{one.id}"' not in page] == []
    assert page.index("Practice only") > page.index("Not asked yet")


def test_a_skill_that_is_not_taught_has_no_questions(bench: "Bench") -> None:
    assert bench.browser("trainer").get("/questions/parking").status_code == 404


def test_questions_are_for_who_teaches(bench: "Bench") -> None:
    for address in ("/questions", "/questions/ppe"):
        assert bench.browser("apprentice").get(address).status_code == 403
        assert bench.browser().get(address).status_code == 302


def test_every_question_of_the_shop_can_be_looked_at_with_its_key(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    for question in bench.pack.questions():
        answer = browser.get(f"/questions/{question.id}?variant={question.numbers[len(question.numbers) - 1]}")
        assert answer.status_code == 200 and ("Right is:" in answer.text or ">right<" in answer.text), question.id


def test_an_answer_is_tried_on_a_question(bench: "Bench") -> None:
    browser, question = bench.browser("trainer"), bench.pack.question("ratio-pairing/hardener-share")
    address = f"/questions/{question.id}?variant={question.numbers[3]}"
    slip = float(question.variant(question.numbers[3]).slip_values(question.parts[0].name)[0] or 0)
    page = browser.get(f"{address}&part.{question.parts[0].name}={slip:g}").text
    assert ">Not right: a known slip</span>" in page and f'value="{slip:g}"' in page
    assert browser.get(f"{address}&part.{question.parts[0].name}=%3Cb%3E").text.count("<b>") == 0


def test_no_such_question_and_no_such_variant(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    assert browser.get("/questions/ratio-pairing/nothing").status_code == 404
    assert browser.get("/questions/ratio-pairing/hardener-share?variant=99999999").status_code == 404


def _rekeyed(bench: "Bench") -> tuple[str, str, int]:
    """A check passed with a number in it, whose question is then published with another key; its id, skill and form."""
    form = bench.pass_check(bench.people.apprentice, "ppe")
    with bench.shop() as shop:
        asked = [row["question"] for row in shop.rows("form_item", form=form)]
        name = next(one for one in asked if isinstance(bench.pack.question(one).parts[0], Numeric))
        question = bench.pack.question(name)
        part = question.parts[0]
        wrong = replace(question, parts=(replace(part, formula=f"({part.formula}) * 3", slips=()), *question.parts[1:]))
        module = bench.pack.module("ppe")
        changed = replace(module, questions=tuple(wrong if one.id == name else one for one in module.questions))
        modules = tuple(changed if one.id == "ppe" else one for one in bench.pack.modules)
        deeds.publish(shop, replace(bench.pack, modules=modules), bench.people.manager, now=bench.now)
    return name, "ppe", form


def test_what_a_corrected_question_changes_is_told_and_applied(bench: "Bench") -> None:
    name, _skill, form = _rekeyed(bench)
    browser = bench.browser("trainer")
    assert "Nobody's marks change." in html.unescape(browser.get("/questions/ppe/sign-match/earlier").text)
    page = browser.get(f"/questions/{name}/earlier").text
    assert ("Ann Bly" in page and "1 is now 0" in page) or "2 is now" in page
    lowers = "no longer passes" in page
    if lowers:
        assert browser.post(f"/questions/{name}/earlier", lower="yes", reason=" ").status_code == 409
    done = browser.post(f"/questions/{name}/earlier", lower="yes", reason="The data sheet says so")
    assert done.status_code == 200 and "Done" in done.text
    with bench.shop() as shop:
        (row,) = shop.rows("remark", form=form)
    assert (row["question"], row["passed"], row["signed"]) == (name, not lowers, lowers)
    assert "Nobody's marks change." in html.unescape(browser.get(f"/questions/{name}/earlier").text)


def test_each_box_brings_up_a_keypad_on_which_its_answers_can_be_typed(bench: "Bench") -> None:
    """A pad of digits has no minus, no stroke and no letters; and it is the same for every variant of a question."""
    pads: dict[tuple[str, str], str] = {}
    for question in bench.pack.questions():
        for number in islice(question.numbers, 24):
            variant = question.variant(number)
            for part in question_view(bench.pack, variant).parts:
                if part.kind == "number":
                    right = variant.right(part.name).removeprefix("≈ ")
                    assert pads.setdefault((question.id, part.name), part.keypad) == part.keypad
                    typed = right.removesuffix(part.unit).strip().replace("$", "").replace(",", "")
                    assert part.keypad == "text" or not re.search(r"[^0-9. ]", typed), (question.id, part.name, right)
    assert set(pads.values()) == {"decimal", "text"}


@pytest.mark.parametrize(("least", "keypad"), [("-10 °C", "text"), ("5 °C", "decimal"), ("-4 °F", "text")])
def test_a_box_for_degrees_has_a_minus_where_its_answers_go_below_zero(least: str, keypad: str) -> None:
    low, degrees = quantity(least), unit(least.split()[1])
    tolerance = Tolerance(within=Fraction(1))
    draw = Given("store", degrees, Even(low.value, degrees.factor, 30))
    part = Numeric("answer", (), "store", degrees.symbol, tolerance, plausible=(low.value, low.value + 40))
    asked = Question("ppe/store", "ppe", ("How cold?",), (part,), (draw,))
    assert [view.keypad for view in part_views(asked.variant(0))] == [keypad]
