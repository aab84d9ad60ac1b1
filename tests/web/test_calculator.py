"""The calculator: a page for whoever stands there, plain text for the script, and a press that loses no answer."""

import html
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.pack.model import Numeric

if TYPE_CHECKING:
    from conftest import Bench, Browser


def test_it_works_without_signing_in(bench: "Bench") -> None:
    browser = bench.browser()
    assert 'href="/reckon"' in browser.get("/sums").text
    assert "= 12" in browser.get("/reckon?sum=120/10").text
    refused = browser.get("/reckon?sum=12+mL")
    assert refused.status_code == 422 and "'mL' was not understood" in html.unescape(refused.text)
    assert 'value="12 mL"' in refused.text


def test_the_script_gets_the_result_alone(bench: "Bench") -> None:
    browser = bench.browser()
    answer = browser.get("/reckon?as=text&sum=1/3")
    assert (answer.text, answer.mimetype) == ("≈ 0.3333333333", "text/plain")
    assert browser.get("/reckon?as=text&sum=1/0").status_code == 422
    assert browser.get("/reckon?sum=" + "9" * 5000).status_code == 422
    assert browser.get("/reckon?sum=%3Cb%3E").text.count("<b>") == 0


def _numbers(bench: "Bench", browser: "Browser") -> tuple[str, list[str]]:
    """The address of a practice question that asks for numbers, and the names of its boxes."""
    question = bench.pack.question("ppe/hours-left")
    answer = browser.post("/practise/ppe", question=question.id)
    return answer.headers["Location"], [f"part.{part.name}" for part in question.parts]


@pytest.mark.parametrize("pressed", [True, False], ids=["pressed", "left with Enter"])
def test_beside_a_practice_question_what_was_typed_stays_and_nothing_is_answered(bench: "Bench", pressed: bool) -> None:
    browser = bench.browser("apprentice")
    address, boxes = _numbers(bench, browser)
    browser.get(address)
    typed = {"do": "reckon", boxes[0]: "1.5"} if pressed else {boxes[0]: " "}
    page = browser.post(address, {**typed, "sum": "(8 − 2) ÷ 4"}).text
    assert "= 1.5" in page and 'value="(8 − 2) ÷ 4"' in page
    assert not pressed or 'value="1.5"' in page
    with bench.shop() as shop:
        assert shop.count("practice") == 0


def test_an_answer_is_sent_with_a_sum_beside_it(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    address, boxes = _numbers(bench, browser)
    browser.get(address)
    assert browser.post(address, {**dict.fromkeys(boxes, "1"), "sum": "2 + 2"}).status_code == 303
    with bench.shop() as shop:
        assert shop.count("practice") == 1


def test_in_a_check_the_calculator_writes_no_answer(bench: "Bench") -> None:
    with bench.shop() as shop:
        form = deeds.start_check(shop, bench.people.apprentice, "ppe", now=bench.now)
        rows = shop.rows("form_item", form=form)
    item, name = next(
        (row["item"], part.name)
        for row in rows
        for part in bench.pack.question(row["question"]).parts[:1]
        if isinstance(part, Numeric)
    )
    browser, address = bench.browser("apprentice"), f"/check/form/{form}/{item}"
    browser.get(address)
    page = browser.post(address, {"do": "reckon", "sum": "2 1/2 x", f"part.{name}": "17"}).text
    assert "The sum breaks off" in page and 'value="17"' in page
    with bench.shop() as shop:
        assert shop.count("answer") == 0
