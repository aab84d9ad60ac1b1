"""An apprentice's pages: ticket, module, lesson, practice, and the check from the first question to the result."""

import re
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.demo.answers import right
from quizkit.pack.model import Numeric

if TYPE_CHECKING:
    from conftest import Bench, Browser


def fields_of(typed: dict[str, str], view: deeds.QuestionView) -> dict[str, object]:
    """What a browser sends for typed answers: a box, ticked options, a place or a letter for each option."""
    sent: dict[str, object] = {}
    for part in view.parts:
        text = typed[part.name]
        if part.kind == "number":
            sent[f"part.{part.name}"] = text
        elif part.kind == "choice":
            sent[f"part.{part.name}"] = text.split(", ")
        elif part.kind == "order":
            sent |= {f"part.{part.name}.{number}": str(at) for at, number in enumerate(text.split(), 1)}
        else:
            sent |= {f"part.{part.name}.{pair[:-1]}": pair[-1] for pair in text.split()}
    return sent


def started(bench: "Bench", browser: "Browser", skill: str = "ppe") -> int:
    """Start a check in a browser; the number of its form."""
    return int(browser.post(f"/check/{skill}").headers["Location"].rsplit("/", 1)[1])


def answered(bench: "Bench", browser: "Browser", form: int, *, wrong: bool = False) -> None:
    """Answer every question of a check through its pages."""
    with bench.shop() as shop:
        person = bench.people.apprentice
        items = [row.item for row in deeds.check_list(shop, person, form, now=bench.now).rows]
        views = [deeds.check_item(shop, person, form, item, now=bench.now).question for item in items]
    for item, view in zip(items, views, strict=True):
        typed = {part.name: "3" for part in view.parts} if wrong else right(bench.pack, view)
        sent = {f"part.{part.name}": "3" for part in view.parts} if wrong else fields_of(typed, view)
        # a line of an order or a pair takes no "3": such a question is asked again
        assert browser.post(f"/check/form/{form}/{item}", sent).status_code in ((303, 422) if wrong else (303,))


def test_the_ticket_shows_what_is_next_and_the_shelf(bench: "Bench") -> None:
    page = bench.browser("apprentice").get("/").text
    assert "Your shelf" in page and all(module.scheme.title in page for module in bench.pack.modules)
    assert 'class="press"' in page


def test_a_module_says_why_its_check_waits(bench: "Bench") -> None:
    page = bench.browser("apprentice").get("/module/balancing").text
    assert "No check can start now:" in page and "Start the check" not in page
    assert "Start the check" in bench.browser("apprentice").get("/module/ppe").text


@pytest.mark.parametrize("address", ["/module/none", "/lesson/ppe/none", "/practice/99", "/check/form/99", "/x/y"])
def test_what_is_not_there_is_said_with_a_way_on(bench: "Bench", address: str) -> None:
    answer = bench.browser("apprentice").get(address)
    assert answer.status_code == 404 and "Today&#39;s ticket" in answer.text


def test_who_is_not_signed_in_is_not_led_to_a_ticket(bench: "Bench") -> None:
    page = bench.browser().get("/x/y").text
    assert "Check the address, or sign in." in page and "ticket." not in page


def test_a_question_of_a_lesson_promises_new_numbers_only_where_one_is_asked_for(bench: "Bench") -> None:
    browser, seen = bench.browser("apprentice"), set()
    for module in bench.pack.modules:
        for lesson in module.lessons:
            page = browser.get(f"/lesson/{lesson.id}").text
            for card in page.split('class="card lesson-question"')[1:]:
                question = next(one for one in module.questions if f'value="{one.id}"' in card)
                asks = any(isinstance(part, Numeric) for part in question.parts)
                assert ("Answer it, with new numbers</button>" in card) == asks, question.id
                assert asks or "Answer it</button>" in card
                seen.add(asks)
    assert seen == {True, False}


def test_a_page_of_ones_own_speaks_to_its_reader(bench: "Bench") -> None:
    own, person = bench.browser("apprentice"), bench.people.apprentice
    assert "You may not do this work." in own.get("/module/balancing").text
    page = own.get(f"/matrix/{person}/balancing").text
    assert "You may not do this work." in page and "All your skills" in page
    page = bench.browser("trainer").get(f"/matrix/{person}/balancing").text
    assert "<p>May not do this work.</p>" in page and "All skills of Ann Bly" in page


def test_every_lesson_opens_and_its_pictures_are_drawn(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    for module in bench.pack.modules:
        for lesson in module.lessons:
            page = browser.get(f"/lesson/{lesson.id}")
            assert page.status_code == 200 and "data-figure" not in page.text and "cannot be drawn" not in page.text
            ids = re.findall(r'\bid="([^"]+)"', page.text)
            assert len(ids) == len(set(ids)), lesson.id
            head = page.text.split("<h1>")[1]
            assert 0 < head.index("invented until the shop") < head.index("decide"), lesson.id


def test_reading_on_leads_to_the_next_lesson_and_is_noted(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    first, second = bench.pack.module("ppe").lessons[:2]
    browser.get(f"/lesson/{first.id}")
    assert browser.post(f"/lesson/{first.id}/read").headers["Location"] == f"/lesson/{second.id}"
    assert browser.get("/module/ppe").text.count("not read yet") == len(bench.pack.module("ppe").lessons) - 1


def practised(bench: "Bench", browser: "Browser") -> tuple[str, deeds.QuestionView]:
    """Draw a practice question; its address and what it shows."""
    where = browser.post("/practise/ppe").headers["Location"]
    with bench.shop() as shop:
        view = deeds.practice_view(shop, bench.people.apprentice, where.rsplit("/", 1)[1], now=bench.now)
    return where, view.question


def test_a_right_answer_is_told_at_once_with_the_working(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    where, view = practised(bench, browser)
    assert "How it is worked" not in browser.get(where).text
    assert browser.post(where, fields_of(right(bench.pack, view), view)).status_code == 303
    page = browser.get(where).text
    assert ">Right</span>" in page and "How it is worked" in page and "The next one" in page


def test_an_empty_answer_is_asked_again_and_not_counted(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    where, _view = practised(bench, browser)
    answer = browser.post(where)
    assert answer.status_code == 422 and "Not read yet" in answer.text and "How it is worked" not in answer.text
    with bench.shop() as shop:
        assert shop.count("practice") == 0


def test_the_same_practice_sent_twice_counts_once(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    where, view = practised(bench, browser)
    sent = fields_of(right(bench.pack, view), view)
    assert [browser.post(where, sent).status_code for _ in range(2)] == [303, 303]
    with bench.shop() as shop:
        assert shop.count("practice") == 1


def test_a_check_tells_nothing_until_it_is_handed_in(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    answered(bench, browser, form)
    seen = browser.get(f"/check/form/{form}/1").text + browser.get(f"/check/form/{form}/list").text
    assert not any(word in seen for word in ("How it is worked", "Right is:", 'class="verdict'))
    handed = browser.post(f"/check/form/{form}/hand-in")
    assert (handed.status_code, handed.headers["Location"]) == (303, f"/check/form/{form}/result")
    assert "passed" in browser.get(f"/check/form/{form}/result").text


def test_a_check_asks_again_for_an_answer_with_nothing_in_it_and_writes_nothing(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    answer = browser.post(f"/check/form/{form}/1")
    assert answer.status_code == 422 and "Not read yet" in answer.text and f"/check/form/{form}/1" in answer.text
    assert browser.post(f"/check/form/{form}/1", then="later").headers["Location"] == f"/check/form/{form}/2"
    with bench.shop() as shop:
        assert shop.count("answer") == 0


@pytest.mark.parametrize(("then", "where"), [("later", "3"), ("before", "1"), ("list", "list")])
def test_whoever_goes_elsewhere_in_a_check_loses_nothing(bench: "Bench", then: str, where: str) -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    with bench.shop() as shop:
        view = deeds.check_item(shop, bench.people.apprentice, form, 2, now=bench.now).question
    typed = right(bench.pack, view)
    sent = browser.post(f"/check/form/{form}/2", fields_of(typed, view), then=then)
    assert sent.headers["Location"] == f"/check/form/{form}/{where}"
    with bench.shop() as shop:
        kept = deeds.check_item(shop, bench.people.apprentice, form, 2, now=bench.now).question
    assert {part.name: part.typed for part in kept.parts} == typed


def test_the_list_says_every_answer_in_its_own_words(bench: "Bench") -> None:
    """No '1b 2a' for pairs, no '3 1 2' for an order: what was chosen is read back as it stood there."""
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    answered(bench, browser, form)
    with bench.shop() as shop:
        person = bench.people.apprentice
        rows = deeds.check_list(shop, person, form, now=bench.now).rows
        kinds = {
            part.kind: row.typed
            for row in rows
            for part in deeds.check_item(shop, person, form, row.item, now=bench.now).question.parts
        }
    assert {"order", "match"} <= kinds.keys()
    assert re.match(r"1\. [A-Z]\D+; 2\. ", kinds["order"])
    assert re.match(r"[^:]{4,}: [^:]{4,}; ", kinds["match"])


def test_leaving_halfway_comes_back_to_the_same_question(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    first = browser.get(f"/check/form/{form}/1").text
    with bench.shop() as shop:
        view = deeds.check_item(shop, bench.people.apprentice, form, 1, now=bench.now).question
    browser.post(f"/check/form/{form}/1", fields_of(right(bench.pack, view), view))
    later = bench.browser("apprentice")
    assert f"/check/form/{form}" in later.get("/").text
    assert later.get(f"/check/form/{form}").headers["Location"] == f"/check/form/{form}/2"
    again = later.get(f"/check/form/{form}/1").text
    prompt = first.split('class="words">')[1].split("</div>")[0]
    assert prompt in again


def test_an_empty_check_is_handed_in_only_when_that_is_meant(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    answer = browser.post(f"/check/form/{form}/hand-in")
    assert answer.status_code == 409 and 'role="alert"' in answer.text
    assert browser.get(f"/check/form/{form}/result").status_code == 409
    assert browser.post(f"/check/form/{form}/hand-in", sure="yes").status_code == 303


def test_handing_in_twice_is_once(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    answered(bench, browser, form)
    addresses = {browser.post(f"/check/form/{form}/hand-in").headers["Location"] for _ in range(2)}
    assert addresses == {f"/check/form/{form}/result"}
    with bench.shop() as shop:
        assert shop.count("result") == 1


def test_a_failed_check_shows_what_went_wrong_and_takes_an_appeal(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = started(bench, browser)
    answered(bench, browser, form, wrong=True)
    browser.post(f"/check/form/{form}/hand-in", sure="yes")
    page = browser.get(f"/check/form/{form}/result").text
    others = bench.browser("trainer").get(f"/check/form/{form}/result").text
    assert (
        re.search(r"You (wrote|said)", page)
        and "Their answer:" in others
        and not re.search(r"You (wrote|said)", others)
    )
    assert "not passed yet" in page and "How it is worked" in page and "A critical answer was wrong" in page
    assert browser.post("/appeal", about=f"form:{form}", words="Question 2 has <b>two</b> answers").status_code == 303
    page = browser.get(f"/check/form/{form}/result").text
    assert "&lt;b&gt;two&lt;/b&gt;" in page and "The answer is to come" in page


@pytest.mark.parametrize("address", ["", "/1", "/list", "/result"])
def test_somebody_elses_check_stays_closed(bench: "Bench", address: str) -> None:
    form = started(bench, bench.browser("apprentice"))
    other = bench.browser("other")
    assert other.get(f"/check/form/{form}{address}").status_code == 403


def test_somebody_elses_check_takes_no_answer(bench: "Bench") -> None:
    form = started(bench, bench.browser("apprentice"))
    other = bench.browser("other")
    assert other.post(f"/check/form/{form}/1", {"part.answer": "3"}).status_code == 403
    assert other.post(f"/check/form/{form}/hand-in", sure="yes").status_code in (403, 409)
    with bench.shop() as shop:
        assert shop.count("answer") == 0 and shop.count("result") == 0


def test_the_list_tells_a_chosen_option_in_its_words(bench: "Bench") -> None:
    ann = bench.people.apprentice
    with bench.shop() as shop:
        form = deeds.start_check(shop, ann, "ppe", now=bench.now)
        rows = deeds.check_list(shop, ann, form, now=bench.now).rows
        views = [deeds.check_item(shop, ann, form, row.item, now=bench.now) for row in rows]
        chosen = next(view for view in views if [part.kind for part in view.question.parts] == ["choice"])
        part = chosen.question.parts[0]
        deeds.answer_item(shop, ann, form, chosen.item, {part.name: "2"}, now=bench.now)
        row = deeds.check_list(shop, ann, form, now=bench.now).rows[chosen.item - 1]
    shown = re.sub("<[^>]+>", "", part.options[1].html)
    assert row.typed and shown.startswith(row.typed.removesuffix(" …")), (row.typed, shown)


def test_the_materials_of_a_sheet_are_said_to_be_invented_where_one_is_picked(bench: "Bench") -> None:
    page = bench.browser("trainer").get(f"/sheets/{bench.people.apprentice}/storage").text
    assert 0 < page.index("Which material?") < page.index("invented until the shop") < page.index("Keel adhesive")
