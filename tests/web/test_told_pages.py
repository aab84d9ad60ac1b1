"""What a trainer or manager is told after a deed, and what a page keeps to itself."""

import datetime as dt
import re
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from tests.web.lived import PHRASE

if TYPE_CHECKING:
    from conftest import Bench


@pytest.fixture
def entitled(bench: "Bench") -> "Bench":
    """The trainer is entitled to sign the sheets of two skills."""
    with bench.shop() as shop:
        for skill in ("ppe", "ratio-pairing"):
            deeds.grant(
                shop, bench.people.manager, bench.people.trainer, skill,
                now=bench.now, founding=True, basis="taught it for ten years",
            )  # fmt: skip
    return bench


def test_what_a_sheet_lacks_leads_to_its_place(entitled: "Bench") -> None:
    browser = entitled.browser("trainer")
    where = f"/sheets/{entitled.people.apprentice}/ratio-pairing"
    browser.get(where)
    page = browser.post(where, {"do": "sign", "measure.shot_a": "much"}).text
    for place in ("material", "seen-1", "measure.shot_a", "instrument"):
        assert f'href="#{place}"' in page and f'id="{place}"' in page, place
    with entitled.shop() as shop:
        assert shop.count("sheet") == 0


def test_a_refusal_without_a_reason_keeps_the_box_for_it_open(entitled: "Bench") -> None:
    browser = entitled.browser("trainer")
    where = f"/sheets/{entitled.people.apprentice}/ratio-pairing"
    assert "open" not in _fold(browser.get(where).text)
    assert "open" in _fold(browser.post(where, {"do": "refuse"}).text)


def _fold(page: str) -> str:
    """The tag of the fold that holds the reason of a refusal."""
    return page[: page.index('id="reason"')].rpartition("<details")[2].partition(">")[0]


def _observed(entitled: "Bench") -> int:
    """A sheet that the trainer saw and nobody has signed yet."""
    helper, people = entitled.people.trainer, entitled.people
    with entitled.shop() as shop:
        view = deeds.open_sheet(shop, helper, people.apprentice, "ppe", now=entitled.now)
        filled = deeds.SheetInput(
            person=people.apprentice, skill="ppe", material=view.materials[0].id, instrument="stop watch",
            seen=frozenset(step.number for step in view.steps),
            measures={"eyewash_way": "7", "glove_chart": "20", "glove_worn": "9"},
        )  # fmt: skip
        return deeds.observe_sheet(shop, helper, filled, now=entitled.now)


def test_the_sheets_that_were_signed_are_named_and_no_others(entitled: "Bench") -> None:
    number = _observed(entitled)
    browser = entitled.browser("trainer")
    assert "signed</h2>" not in browser.get(f"/sheets?signed={number}").text
    answer = browser.post("/sheets/sign", {"sheet": str(number), "secret": PHRASE})
    assert answer.status_code == 303
    page = browser.get(answer.headers["Location"]).text
    assert "1 sheet signed" in page and f'href="/sheet/{number}"' in page


def test_the_wall_says_who_may_do_what_and_not_why_one_may_not(entitled: "Bench") -> None:
    with entitled.shop() as shop:
        why = "forced a nozzle, twice"
        deeds.withdraw(
            shop, entitled.people.trainer, entitled.people.apprentice, "ratio-pairing", why, now=entitled.now
        )
    browser = entitled.browser("manager")
    assert "forced a nozzle" in browser.get("/matrix/").text
    cell = browser.get(f"/matrix/{entitled.people.apprentice}/ratio-pairing").text
    assert re.findall(r"\bBy [A-Z]\w+ \w+[,.]", cell) and not re.findall(r">by [A-Z]", cell)
    page = browser.get("/matrix/wall").text
    assert "forced" not in page and "<b>withdrawn</b>since 2 Nov 2026" in page


def test_who_has_left_is_told_only_of_who_has(bench: "Bench") -> None:
    browser, gone = bench.browser("manager"), bench.people.apprentice
    assert f"Number {gone} has left" not in browser.get(f"/people?gone={gone}").text
    answer = browser.post(f"/people/{gone}/leave", {"sure": "yes"})
    assert f"Number {gone} has left" in browser.get(answer.headers["Location"]).text


def test_a_trainer_writes_the_talk_down_where_the_failed_check_is_read(bench: "Bench") -> None:
    forms = []
    with bench.shop() as shop:
        for _turn in range(2):
            forms.append(deeds.start_check(shop, bench.people.apprentice, "ppe", now=bench.now))
            deeds.hand_in(shop, bench.people.apprentice, forms[-1], now=bench.now, sure=True)
            bench.later(hours=25)
    address, talk = f"/check/form/{forms[-1]}/result", f"/talk/{bench.people.apprentice}/ppe"
    trainer = bench.browser("trainer")
    page = trainer.get(address).text
    assert f'action="{talk}"' in page and "Until then no new check starts" in page
    critical = re.findall(r'href="#(question-\d+)"', page[: page.index("By topic")])
    assert critical and re.findall(r'id="(question-\d+)"', page)[: len(critical)] == critical
    assert f'href="{address}"' in trainer.get("/sheets").text
    assert talk not in bench.browser("apprentice").get(address).text
    assert trainer.post(talk, {"practised": "The signs."}).status_code == 303
    assert talk not in trainer.get(address).text


def test_what_is_wrong_on_a_sheet_is_told_on_top_and_marked_at_its_box(entitled: "Bench") -> None:
    browser = entitled.browser("trainer")
    where = f"/sheets/{entitled.people.apprentice}/ratio-pairing"
    browser.get(where)
    page = browser.post(where, {"do": "sign", "measure.shot_a": "1"}).text
    for id in ("seen-1", "measure.shot_b", "instrument"):
        assert "aria-invalid" in _tag(page, id), id
    assert "aria-invalid" not in _tag(page, "measure.shot_a")
    steps = {"measure.shot_a": "much", "measure.shot_b": "10", "measure.scale_step": "1"}
    top = browser.post(where, {"do": "judge"} | steps).text.partition("data-judge")[0]
    assert 'href="#measure.shot_a"' in top and 'href="#judged"' in top and "Smallest step of shot" in top


def _tag(page: str, id: str) -> str:
    """The tag of the box with an id."""
    return page[page.index(f'id="{id}"') :].partition(">")[0]


def test_no_sheet_to_sign_is_ticked_and_nobody_is_picked_before_somebody_has_read_and_picked(
    entitled: "Bench",
) -> None:
    people = entitled.people
    with entitled.shop() as shop:
        view = deeds.open_sheet(shop, people.trainer, people.apprentice, "ppe", now=entitled.now)
        filled = deeds.SheetInput(
            person=people.apprentice, skill="ppe", material=view.materials[0].id, instrument="stop watch",
            seen=frozenset(step.number for step in view.steps),
            measures={"eyewash_way": "7", "glove_chart": "20", "glove_worn": "9"},
        )  # fmt: skip
        number = deeds.observe_sheet(shop, people.trainer, filled, now=entitled.now)
    browser = entitled.browser("trainer")
    box = re.search(rf'<input type="checkbox" name="sheet" value="{number}"[^>]*>', browser.get("/sheets").text)
    assert box and "checked" not in box[0] and "disabled" not in box[0]
    page = browser.get("/sheets/open").text
    assert "selected" not in page and 'role="alert"' not in page
    assert 'role="alert"' in browser.get(f"/sheets/open?person={people.apprentice}&skill=").text


def test_a_parked_sheet_says_when_it_was_parked(entitled: "Bench") -> None:
    browser = entitled.browser("trainer")
    where = f"/sheets/{entitled.people.apprentice}/ratio-pairing"
    assert "Parked" not in browser.get(where).text.partition("data-judge")[0]
    assert browser.post(where, {"do": "park", "seen": "1"}).status_code == 303
    assert f"Parked {entitled.now.day} " in browser.get(where).text.partition("data-judge")[0]


def test_a_sheet_on_record_says_who_saw_recorded_and_signed_it_and_on_what_target(entitled: "Bench") -> None:
    people = entitled.people
    with entitled.shop() as shop:
        view = deeds.open_sheet(shop, people.trainer, people.apprentice, "ratio-pairing", now=entitled.now)
        filled = deeds.SheetInput(
            person=people.apprentice, skill="ratio-pairing", instrument="scale 2, 0.1 g", material="Keel adhesive",
            seen=frozenset(step.number for step in view.steps),
            measures={"shot_a": "46.3", "shot_b": "20", "scale_step": "0.1"},
        )  # fmt: skip
        seen = deeds.observe_sheet(shop, people.trainer, filled, now=entitled.now)
        deeds.sign_observed(shop, people.trainer, [seen], PHRASE, now=entitled.now + dt.timedelta(days=1))
        signed = deeds.sign_sheet(shop, people.trainer, filled, now=entitled.now + dt.timedelta(days=2))
        refused = deeds.refuse_sheet(shop, people.trainer, filled, "Too much.", now=entitled.now + dt.timedelta(days=3))
    entitled.later(days=4)
    browser = entitled.browser("trainer")
    for number, deed in ((seen, "Signed by"), (signed, "Signed by"), (refused, "Refused by")):
        page = browser.get(f"/sheet/{number}").text
        titles = re.findall(r"<dt>([^<]*)</dt>", page)
        assert titles[2:5] == ["Seen by", "Recorded by", deed], number
        assert page.count("taught it for ten years") == 1, "by what right, told once"
        assert 'weight ratio <span class="num">2.32</span>' in page and "(between −5 % and 5 %)" in page
    assert "<dt>Why refused</dt>" in page


def test_who_may_sign_none_of_what_was_seen_is_asked_for_no_passphrase(entitled: "Bench") -> None:
    _observed(entitled)
    mine, others = (entitled.browser(role).get("/sheets").text for role in ("trainer", "manager"))
    assert "Your passphrase, once for all of them" in mine and "None of them is yours" not in mine
    assert "None of them is yours to sign." in others and "Your passphrase" not in others
    assert "Sign the ticked ones" not in others and others.count("Seen, waiting for a signature") == 1


def test_the_box_of_a_pin_that_is_refused_is_marked_and_led_to(bench: "Bench") -> None:
    browser = bench.browser("manager")
    browser.get("/people")
    sent = {"role": "apprentice", "site": "north"}
    weak = browser.post("/people", name="New Here", secret="12", **sent).text
    assert '<a href="#secret">' in weak and re.findall(r'<input id="(\w+)"[^>]* aria-invalid', weak) == ["secret"]
    nameless = browser.post("/people", name=" ", secret="271828", **sent).text
    assert '<a href="#name">' in nameless and re.findall(r'<input id="(\w+)"[^>]* aria-invalid', nameless) == ["name"]
