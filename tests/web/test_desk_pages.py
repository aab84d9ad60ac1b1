"""The desk: tickets, stock and month end by hand and by file; what is wrong is said, and nothing half of it is kept."""

import datetime as dt
import io
import re
from typing import TYPE_CHECKING

import pytest
from openpyxl import load_workbook

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Bench

HEADS = "ticket,job,person,day,material,lot a,lot b,used\n"


def ticket(bench: "Bench", **other: str) -> dict[str, object]:
    """What a browser sends for a ticket with one material."""
    filled = {"material.1": "Keel adhesive", "lot_a.1": "4471", "lot_b.1": "4472", "used.1": "30 to 115 mL"}
    told = {"ticket": "T-118", "job": "bond-quarter-panel", "person": str(bench.people.technician)}
    return {**told, **filled, **{name.replace("__", "."): text for name, text in other.items()}}


def rows(bench: "Bench", table: str) -> int:
    with bench.shop() as shop:
        return shop.count(table)


def test_a_ticket_written_down_stands_on_its_day_with_what_it_charges(bench: "Bench") -> None:
    """85 of 200 mL at $46.00 with a markup of 40 % is $27.37 (read in the billing lesson)."""
    browser = bench.browser("trainer")
    assert "No tickets for this day yet" in browser.get("/tickets").text
    assert browser.post("/tickets", ticket(bench)).status_code == 303
    page = browser.get("/tickets").text
    for words in ("T-118: Bond a quarter panel", "Ben Cray", "lots 4471 and 4472", "85 mL", "$27.37"):
        assert words in page, words
    assert '/lookback?ticket=T-118"' in page


def test_a_technician_writes_down_their_own_and_sees_no_other(bench: "Bench") -> None:
    browser = bench.browser("technician")
    assert 'name="person"' not in browser.get("/tickets").text
    assert browser.post("/tickets", ticket(bench)).status_code == 303
    assert "T-118" in browser.get("/tickets").text
    other = bench.browser("apprentice")
    assert "T-118" not in other.get("/tickets").text
    assert other.post("/tickets", ticket(bench)).status_code == 409


@pytest.mark.parametrize(
    ("wrong", "word"),
    [
        ({"done_on": "2026-11-03"}, "still to come"),
        ({"done_on": "11/02/2026"}, "is no day"),
        ({"person": ""}, "pick the name"),
        ({"lot_b__1": ""}, "lot of side B"),
        ({"used__1": "115 to 30 mL"}, "read the scale again"),
        ({"used__1": "a lot"}, "not understood"),
        ({"nozzles__1": "x"}, "nozzles"),
        ({"material__1": "Elm"}, "no material"),
        ({"material__1": "", "lot_a__1": "", "lot_b__1": "", "used__1": ""}, "No material is on this ticket"),
        ({"job": "polish"}, "kind of job"),
    ],
)
def test_a_ticket_that_cannot_be_is_told_and_what_was_typed_stays(
    bench: "Bench", wrong: dict[str, str], word: str
) -> None:
    browser = bench.browser("trainer")
    browser.get("/tickets")
    answer = browser.post("/tickets", ticket(bench, **wrong))
    assert answer.status_code == 409 and 'role="alert"' in answer.text and word in answer.text
    assert 'value="T-118"' in answer.text and rows(bench, "job") == 0


def test_all_that_a_ticket_lacks_is_told_at_once_and_leads_to_its_box(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    browser.get("/tickets")
    wrong = {"job": "", "person": "", "done_on": "soon", "material__1": "", "used__1": "much", "charge": "a lot"}
    wrong |= {"material__3": "Keel adhesive", "lot_a__3": "1", "used__3": "30 to 115 mL", "nozzles__3": "x"}
    page = browser.post("/tickets", ticket(bench, **wrong)).text
    places = ("done_on", "job", "person", "material-1", "used-1", "lot_b-3", "nozzles-3", "charge")
    assert re.findall(r'href="#([^"]*)">[^<]', page[page.index('role="alert"') :]) == list(places)
    for place in places:
        assert 'aria-invalid="true"' in page[page.index(f' id="{place}"') :].partition(">")[0], place
    assert "aria-invalid" not in page[page.index(' id="used-3"') :].partition(">")[0]
    assert rows(bench, "job") == 0


def test_a_ticket_is_offered_the_day_that_the_page_shows(bench: "Bench") -> None:
    """A late ticket goes to the day that its writer looks at, not to today."""
    page = bench.browser("trainer").get("/tickets?day=2026-10-30").text
    assert 'value="2026-10-30"' in page[page.index('id="done_on"') :].partition(">")[0]


def test_a_wrong_ticket_is_withdrawn_by_a_manager(bench: "Bench") -> None:
    browser = bench.browser("manager")
    browser.get("/tickets")
    browser.post("/tickets", ticket(bench))
    with bench.shop() as shop:
        (number,) = [job.number for job in deeds.tickets(shop, bench.people.manager, now=bench.now).jobs]
    browser.get("/tickets")
    assert browser.post(f"/tickets/{number}/withdraw", reason="Another car.").status_code == 303
    assert "Another car." in browser.get("/tickets").text


def upload(text: str | bytes) -> dict[str, object]:
    data = text if isinstance(text, bytes) else text.encode()
    return {"list": (io.BytesIO(data), "list.csv")}


def test_a_list_of_tickets_is_taken_up_whole_or_told_by_its_lines(bench: "Bench") -> None:
    good = HEADS + "T-1,Seal a seam,Ben Cray,2026-11-02,Sedge sealer,1,2,1/2 cartridge\n"
    browser = bench.browser("manager")
    browser.get("/tickets")
    answer = browser.post("/tickets/list", upload(good + "T-2,Seal a seam,Nobody,2026-11-02,Sedge sealer,1,2,60\n"))
    assert answer.status_code == 409 and "Line 3:" in answer.text and "Nobody" in answer.text
    assert rows(bench, "job") == 0
    for bad in ("", "nonsense", b"\xff\xfe\x00"):
        assert browser.post("/tickets/list", upload(bad)).status_code == 409
    assert browser.post("/tickets/list", upload(good)).status_code == 303
    assert rows(bench, "job") == rows(bench, "job_use") == 1
    assert bench.browser("technician").post("/tickets/list", upload(good)).status_code == 403


def test_stock_is_counted_received_and_scrapped(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    assert "never" in browser.get("/stock").text
    count = {"count.Keel adhesive": "14", "count.Garth sealer": "2 1/2", "site": "north", "counted_on": ""}
    assert browser.post("/stock/count", count).status_code == 303
    moved = {"what": "received", "material": "Keel adhesive", "amount": "400 mL", "site": "north"}
    assert browser.post("/stock", moved | {"on": "2026-11-03"}).status_code == 409
    assert browser.post("/stock", moved).status_code == 303
    assert browser.post("/stock", moved | {"what": "scrapped", "amount": "1"}).status_code == 409
    assert browser.post("/stock", moved | {"what": "scrapped", "amount": "1", "note": "Dated out."}).status_code == 303
    page = browser.get("/stock?site=north").text
    assert "2.5" in page and "Dated out." in page
    assert "never" in browser.get("/stock?site=south").text


def test_a_wrong_box_in_a_count_keeps_all_of_it_back(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    browser.get("/stock")
    count = {"count.Keel adhesive": "14", "count.Garth sealer": "some", "site": "north"}
    answer = browser.post("/stock/count", count)
    assert answer.status_code == 409 and "Garth sealer" in answer.text and 'value="14"' in answer.text
    assert browser.post("/stock/count", {"site": "north"}).status_code == 409
    assert rows(bench, "stock") == 0


def test_a_list_of_stock_with_a_bad_row_adds_none(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    browser.get("/stock")
    heads = "what,material,amount\n"
    answer = browser.post("/stock/list", upload(heads + "received,Keel adhesive,24\nlost,Keel adhesive,1\n"))
    assert answer.status_code == 409 and "Line 3:" in answer.text and rows(bench, "stock") == 0
    assert browser.post("/stock/list", upload(heads + "received,Keel adhesive,24\n")).status_code == 303


@pytest.fixture
def november(bench: "Bench") -> "Bench":
    """14 at the start, 24 received, 9 left, 22.4 billed: the billing lesson's own month, on its last evening."""
    bench.now = dt.datetime(2026, 11, 30, 23, 0, tzinfo=dt.UTC)
    with bench.shop() as shop:
        by, keel = bench.people.trainer, "Keel adhesive"
        deeds.count_stock(shop, by, keel, "14", now=bench.now, on=dt.date(2026, 10, 31))
        deeds.receive_stock(shop, by, keel, "24", now=bench.now, on=dt.date(2026, 11, 9))
        deeds.count_stock(shop, by, keel, "9", now=bench.now)
        uses = [deeds.Use(keel, "1", "2", "22.4 cartridges")]
        deeds.record_job(
            shop, by, ticket="T", job="bond-quarter-panel", person=bench.people.technician, uses=uses, now=bench.now,
            site="north",
        )  # fmt: skip
    return bench


def test_the_gap_of_a_month_is_shown_saved_and_given_to_a_spreadsheet(november: "Bench") -> None:
    browser = november.browser("manager")
    page = browser.get("/month").text
    assert "Month end, November 2026" in page
    for words in ("$303.60 not billed", "6.6", "22.8 %", "Save these figures"):
        assert words in page, words
    assert browser.post("/month/2026-11", site="").status_code == 303
    page = browser.get("/month/2026-11?site=").text
    assert "Saved 30 Nov 2026" in page and "Save these figures" not in page
    assert "22.4" in browser.get("/month/2026-11.csv?site=north").text
    book = load_workbook(io.BytesIO(browser.get("/month/2026-11.xlsx").data)).active
    assert 303.6 in [cell.value for line in book for cell in line]
    assert browser.post("/month/2026-11", site="").status_code == 409
    assert november.browser("trainer").post("/month/2026-11", site="").status_code == 403


@pytest.mark.parametrize("address", ["/month/2026-13", "/month/2027-05", "/month/then", "/month?month=x"])
def test_what_is_no_month_is_told(november: "Bench", address: str) -> None:
    assert november.browser("manager").get(address).status_code == 409
    assert november.browser("manager").get("/month/2026-11.odt").status_code == 404


def test_the_desk_is_the_trainers_and_managers(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    for address in ("/stock", "/month", "/month/2026-11.csv"):
        assert browser.get(address).status_code == 403
