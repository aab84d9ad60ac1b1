"""The look-back page: asked for in the address, whole in one page, and told where nothing fits."""

import csv
import datetime as dt
import io
import re
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import pytest

from quizkit import shop as deeds
from quizkit.shop import Use

if TYPE_CHECKING:
    from conftest import Bench


@pytest.fixture
def ticket(bench: "Bench") -> str:
    """A technician's ticket, on which a panel was bonded without any clearance."""
    with bench.shop() as shop:
        deeds.record_job(
            shop,
            bench.people.trainer,
            ticket="T-118",
            job="bond-quarter-panel",
            person=bench.people.technician,
            uses=[Use("Keel adhesive", "4471", "4472", "30 to 115 mL", nozzles=2)],
            now=bench.now,
        )
    bench.later(days=240)
    return "T-118"


def test_the_office_leads_to_it_and_one_field_is_enough(bench: "Bench", ticket: str) -> None:
    browser = bench.browser("manager")
    assert 'href="/lookback"' in browser.get("/office").text
    assert "One of these is enough" in browser.get("/lookback").text
    page = browser.get(f"/lookback?ticket={ticket}").text
    for words in (
        "Ben Cray",
        "Keel adhesive",
        "4471",
        "4472",
        "85 mL",
        "not started",
        "As then known",
        "2:1 by volume",
    ):
        assert words in page, words
    with bench.shop() as shop:
        assert shop.records.head().seal in page


def test_a_lesson_in_force_is_one_press_away(bench: "Bench", ticket: str) -> None:
    browser = bench.browser("manager")
    found = re.findall(r'href="(/lookback/lesson/2026-11-02/[^"]+)"', browser.get(f"/lookback?ticket={ticket}").text)
    assert found
    page = browser.get(found[0])
    assert page.status_code == 200 and "As it was in force on 2 Nov 2026" in page.text
    for day, status in (("2026-02-30", 409), ("%20", 404), ("2199-01-01", 409)):
        assert browser.get(found[0].replace("2026-11-02", day)).status_code == status


def test_a_bond_by_somebody_who_was_not_cleared_says_why(bench: "Bench", ticket: str) -> None:
    page = bench.browser("trainer").get("/lookback?lot=4472").text
    assert "is not cleared" in page and "Nobody else:" in page


def test_many_tickets_are_listed_first(bench: "Bench", ticket: str) -> None:
    with bench.shop() as shop:
        for number in range(8):
            deeds.record_job(
                shop,
                bench.people.trainer,
                ticket=f"T-20{number}",
                job="bond-quarter-panel",
                person=bench.people.technician,
                uses=[Use("Keel adhesive", "4471", "9", "85")],
                now=bench.now,
            )
    browser = bench.browser("manager")
    page = browser.get("/lookback?lot=4471").text
    assert "9 tickets fit" in page and 'href="/lookback?ticket=T-207"' in page and "As then known" not in page
    assert "As then known" in browser.get("/lookback?lot=4471&whole=yes").text


def test_the_same_comes_as_a_file_for_a_spreadsheet(bench: "Bench", ticket: str) -> None:
    answer = bench.browser("manager").get(f"/lookback.csv?ticket={ticket}")
    rows = list(csv.DictReader(io.StringIO(answer.data.decode("utf-8-sig"), newline="")))
    assert {"Tickets", "Were they allowed to?", "Where they stood", "Shelf in force", "Head of the records"} <= {
        row["Part"] for row in rows
    }
    assert any("lots 4471 and 4472" in row["What"] and row["Who"] == "Ben Cray" for row in rows)


def test_the_days_of_the_file_are_those_of_the_page(bench: "Bench", ticket: str) -> None:
    """In the evening it is tomorrow in Greenwich already, and a row written down then would look late."""
    bench.now = (bench.now + dt.timedelta(days=1)).replace(hour=2)
    with bench.shop() as shop:
        here = bench.now.astimezone(ZoneInfo(deeds.settings(shop).zone)).date()
    assert here != bench.now.date()
    browser = bench.browser("manager")
    rows = list(csv.DictReader(io.StringIO(browser.get(f"/lookback.csv?ticket={ticket}").data.decode("utf-8-sig"))))
    days = {row["Day"] for row in rows if row["Part"] in ("Looked for", "Head of the records")}
    assert days == {here.isoformat()}
    assert f"{here.day} {here:%b %Y} by" in " ".join(browser.get(f"/lookback?ticket={ticket}").text.split())


@pytest.mark.parametrize(
    "query",
    ["ticket=T-404", "lot=nothing", "person=99", "person=Nobody", "day=2199-01-01", "day=2026-02-30", "material=Elm"],
)
def test_what_is_not_on_file_is_said_and_the_form_stays(bench: "Bench", ticket: str, query: str) -> None:
    answer = bench.browser("manager").get(f"/lookback?{query}")
    assert answer.status_code == 404 and 'role="alert"' in answer.text and "What do you look for?" in answer.text


def test_at_the_bench_nobody_looks_back(bench: "Bench", ticket: str) -> None:
    for address in ("/lookback", f"/lookback?ticket={ticket}", f"/lookback.csv?ticket={ticket}"):
        assert bench.browser("technician").get(address).status_code == 403
