"""The pages of a large group stay pages: names and rows are cut, and it is said how many more there are."""

from typing import TYPE_CHECKING

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Bench


def test_the_matrix_is_cut_after_so_many_and_narrows_down_to_a_site(bench: "Bench") -> None:
    rows = [{"name": f"Person {number:03}", "role": "apprentice", "site": "north"} for number in range(260)]
    with bench.shop() as shop:
        deeds.add_people(shop, rows, by=bench.people.manager, now=bench.now)
    browser = bench.browser("manager")
    page = browser.get("/matrix/").text
    assert page.count('<tr><th scope="row">Person') + 5 >= 250 > page.count('<tr><th scope="row">Person')
    assert "15 more people" in page
    page = browser.get("/matrix/?site=south").text
    assert "more people" not in page and "Ben Cray" in page and "Person 001" not in page
    assert browser.get("/matrix.csv").text.count("Person ") >= 260
