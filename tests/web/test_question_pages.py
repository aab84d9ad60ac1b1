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
