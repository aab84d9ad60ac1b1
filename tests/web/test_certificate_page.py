"""The check page of a printed certificate: a stranger learns whether it stands, and with a wrong seal nothing."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Bench, Lived


def _bench(lived: "Lived", tmp_path: Path) -> tuple["Bench", int, str]:
    bench, number = lived.bench(tmp_path), lived.rows["certificate"]
    with bench.shop() as shop:
        return bench, number, str(shop.get("certificate", number)["head"])


def _said(page: str) -> str:
    """The words of a page, but for what is in its address."""
    return re.sub(r"<[^>]*>", " ", page)


def test_a_stranger_is_told_what_the_certificate_says_and_nothing_of_the_person(lived: "Lived", tmp_path: Path) -> None:
    bench, number, seal = _bench(lived, tmp_path)
    assert "This certificate stands" not in bench.browser().get(f"/c/{number}/{seal}").text, "a skill was withdrawn"
    with bench.shop() as shop:
        deeds.end_withdrawal(
            shop, bench.people.manager, lived.rows["withdrawal"], "Seen again.", now=bench.now, restores=True
        )
    page = bench.browser().get(f"/c/{number}/{seal}").text
    assert "This certificate stands" in page and "Start" in page and "Small Shop" in page
    with bench.shop() as shop:
        told = {one.name for one in deeds.people(shop)}
    assert not [name for name in told if re.sub(r"<[^>]*>", "", name).split()[0] in _said(page).split()]
    assert not any(f"/people/{one}" in page for one in range(9))


def test_a_withdrawn_one_says_so_and_not_why(lived: "Lived", tmp_path: Path) -> None:
    bench, number, seal = _bench(lived, tmp_path)
    with bench.shop() as shop:
        deeds.withdraw_certificate(shop, bench.people.manager, number, "Papers were forged", now=bench.now)
    page = bench.browser().get(f"/c/{number}/{seal}").text
    assert "was withdrawn" in page and "forged" not in page


def test_a_wrong_seal_tells_no_more_than_a_number_that_was_never_given_out(lived: "Lived", tmp_path: Path) -> None:
    bench, number, seal = _bench(lived, tmp_path)
    browser = bench.browser()
    answers = [
        browser.get(address)
        for address in (
            f"/c/{number}/{'0' * 64}",
            f"/c/{number}/{seal[:-1]}",
            f"/c/{number + 1}/{seal}",
            f"/c/999999999/{seal}",
            f"/c/{2**70}/{seal}",
            f"/c/{number}/%F0%9F%94%A9",
        )
    ]
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.text for answer in answers}) == 1 and "Start" not in answers[0].text
