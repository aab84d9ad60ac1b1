"""The trainer's pages of questions: how they were answered, and any of them with its key."""

from typing import TYPE_CHECKING

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
        assert answer.status_code == 200 and "Right is:" in answer.text, question.id


def test_an_answer_is_tried_on_a_question(bench: "Bench") -> None:
    browser, question = bench.browser("trainer"), bench.pack.question("ratio-pairing/hardener-share")
    address = f"/questions/{question.id}?variant={question.numbers[3]}"
    slip = float(question.variant(question.numbers[3]).slip_values(question.parts[0].name)[0] or 0)
    page = browser.get(f"{address}&part.{question.parts[0].name}={slip:g}").text
    assert "A known slip." in page and f'value="{slip:g}"' in page
    assert browser.get(f"{address}&part.{question.parts[0].name}=%3Cb%3E").text.count("<b>") == 0


def test_no_such_question_and_no_such_variant(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    assert browser.get("/questions/ratio-pairing/nothing").status_code == 404
    assert browser.get("/questions/ratio-pairing/hardener-share?variant=99999999").status_code == 404
