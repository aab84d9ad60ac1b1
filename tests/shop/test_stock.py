"""Stock and lists: every row is read before any is written, and what is wrong names its row."""

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, Use

if TYPE_CHECKING:
    from conftest import Floor

DAY = "2026-01-05"
JOB = {
    "ticket": "T-1", "job": "Bond a panel", "person": "Ann Bly", "day": DAY, "material": "Alder", "lot a": "1",
    "lot b": "2", "used": "30 to 115 mL",
}  # fmt: skip


def north(floor: "Floor") -> dict[str, deeds.StockLine]:
    return {line.material: line for line in deeds.stock(floor.shop, floor.trainer, now=floor.now).lines}


def test_what_should_be_there_follows_from_the_last_count(floor: "Floor") -> None:
    """12 counted, 6 received, half of one scrapped, 85 of 200 mL used: 17.075 (computed)."""
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "12", now=floor.now)
    floor.later(days=1)
    deeds.receive_stock(floor.shop, floor.trainer, "Alder", "6", now=floor.now, lot="4471")
    deeds.scrap_stock(floor.shop, floor.trainer, "Alder", "1/2 cartridge", now=floor.now, note="Spilled.")
    uses = [Use("Alder", "4471", "4472", "85 mL")]
    deeds.record_job(
        floor.shop, floor.trainer, ticket="T", job="bond", person=floor.ann, uses=uses, now=floor.now, site="north"
    )
    alder = north(floor)["Alder"]
    assert [str(one) for one in (alder.counted, alder.received, alder.scrapped, alder.on_tickets, alder.expected)] == [
        "12", "6", "0.5", "0.425", "17.075",
    ]  # fmt: skip
    assert north(floor)["Birch"].expected is None


@pytest.mark.parametrize(
    ("what", "told", "word"),
    [
        ("receive", {"material": "Elm"}, "no material 'Elm'"),
        ("receive", {"amount": "some"}, "not understood"),
        ("receive", {"amount": "0"}, "nothing is no amount"),
        ("receive", {"on": dt.date(2026, 1, 6)}, "still to come"),
        ("receive", {"site": "east"}, "site"),
        ("receive", {"lot": "9" * 61}, "lot"),
        ("scrap", {}, "why it was thrown out"),
        ("count", {"amount": "-2"}, "less than nothing"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_is_written(
    floor: "Floor", what: str, told: dict[str, Any], word: str
) -> None:
    deed = {"receive": deeds.receive_stock, "scrap": deeds.scrap_stock, "count": deeds.count_stock}[what]
    head = floor.shop.records.head()
    with pytest.raises(Refusal, match=word) as caught:
        deed(floor.shop, floor.trainer, **({"material": "Alder", "amount": "3"} | told), now=floor.now)  # type: ignore[operator]
    assert caught.value.mend and floor.shop.records.head() == head


def test_at_the_bench_nobody_counts_the_stock(floor: "Floor") -> None:
    with pytest.raises(Forbidden):
        deeds.count_stock(floor.shop, floor.ann, "Alder", "3", now=floor.now)


def test_the_same_press_twice_writes_one_row_and_another_count_stands(floor: "Floor") -> None:
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "3", now=floor.now)
    with pytest.raises(Refusal, match="this very row"):
        deeds.count_stock(floor.shop, floor.trainer, "Alder", "3", now=floor.now)
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "4", now=floor.now)
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "3", now=floor.now)
    assert str(north(floor)["Alder"].expected) == "3"


def test_a_list_of_stock_is_added_whole(floor: "Floor") -> None:
    rows = [
        {"what": "Counted", "material": "alder", "amount": "12", "day": DAY},
        {"what": "received", "material": "Birch", "amount": "100 mL", "day": "5 Jan 2026", "lot": "3"},
    ]
    added = deeds.add_stock(floor.shop, rows, by=floor.trainer, now=floor.now)
    assert len(added.numbers) == 2 and added.problems == ()
    assert str(north(floor)["Birch"].received) == "2"


def test_a_list_of_stock_with_wrong_rows_names_each_and_adds_none(floor: "Floor") -> None:
    good = {"what": "counted", "material": "Alder", "amount": "12"}
    rows = [good, good | {"what": "lost"}, good | {"amount": "x"}, good | {"day": "yesterday"}, good]
    added = deeds.add_stock(floor.shop, rows, by=floor.trainer, now=floor.now)
    assert added.numbers == () and [one.row for one in added.problems] == [2, 3, 4, 5]
    assert all(one.what and one.mend for one in added.problems) and floor.shop.count("stock") == 0


def test_lines_of_one_ticket_are_one_job_with_several_materials(floor: "Floor") -> None:
    rows = [JOB | {"charge": "$30", "nozzles": "2"}, JOB | {"material": "Birch", "used": "10"}, JOB | {"ticket": "T-2"}]
    added = deeds.record_jobs(floor.shop, rows, by=floor.manager, now=floor.now)
    assert len(added.numbers) == 2
    first, second = deeds.tickets(floor.shop, floor.manager, now=floor.now).jobs
    assert [(use.material, use.nozzles) for use in first.uses] == [("Alder", 2), ("Birch", 0)]
    assert (first.charge.text, second.charge.text) == ("$30.00", "$19.55")


def test_a_list_of_jobs_with_wrong_rows_names_each_and_writes_none(floor: "Floor") -> None:
    rows = [
        JOB,
        JOB | {"ticket": "T-2", "person": "Nobody Here"},
        JOB | {"ticket": "T-3", "nozzles": "two"},
        JOB | {"ticket": "T-4", "lot b": ""},
        JOB | {"ticket": "T-5", "day": "2026-01-06"},
        JOB | {"ticket": "T-6", "job": "polish"},
        JOB | {"ticket": "T-7", "beside": "Ann Bly"},
    ]
    added = deeds.record_jobs(floor.shop, rows, by=floor.manager, now=floor.now)
    assert added.numbers == () and [one.row for one in added.problems] == [2, 3, 4, 5, 6, 7]
    assert all(one.what and one.mend for one in added.problems)
    assert floor.shop.count("job") == floor.shop.count("job_use") == 0
    with pytest.raises(Forbidden):
        deeds.record_jobs(floor.shop, [JOB], by=floor.ann, now=floor.now)
