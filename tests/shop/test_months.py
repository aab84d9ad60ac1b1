"""Month end: counts against tickets, the gap in units, money and percent, saved as evidence."""

import datetime as dt
import random
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, Use

if TYPE_CHECKING:
    from conftest import Floor

NOVEMBER = "2026-11"


@pytest.fixture
def autumn(floor: "Floor") -> "Floor":
    """The lesson's own month: 14 at the start, 24 received, 9 left; 22.4 billed of 29 used."""
    floor.now = dt.datetime(2026, 12, 2, 18, tzinfo=dt.UTC)
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "14", now=floor.now, on=dt.date(2026, 10, 31))
    deeds.receive_stock(floor.shop, floor.trainer, "Alder", "24", now=floor.now, on=dt.date(2026, 11, 9), lot="7")
    for at, used in enumerate(("10 cartridges", "10 cartridges", "480 mL"), 3):
        bonded(floor, f"T-{at}", used, on=dt.date(2026, 11, at))
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "9", now=floor.now, on=dt.date(2026, 11, 30))
    return floor


def bonded(floor: "Floor", ticket: str, used: str, on: dt.date, **other: Any) -> int:
    uses = [Use("Alder", "7", "8", used, **other)]
    return deeds.record_job(
        floor.shop, floor.trainer, ticket=ticket, job="bond", person=floor.ann, uses=uses, done_on=on, now=floor.now
    )


def november(floor: "Floor", **asked: Any) -> deeds.MonthView:
    return deeds.month_end(floor.shop, floor.manager, NOVEMBER, now=floor.now, **asked)


def test_the_gap_is_the_lessons_own_in_units_money_and_percent(autumn: "Floor") -> None:
    """29 used, 22.4 billed, 6.6 not, 23 % (read in the billing lesson); 6.6 at $46.00 is $303.60 (computed)."""
    (row,) = november(autumn).rows
    assert [str(one) for one in (row.opening, row.received, row.closing, row.scrapped, row.used, row.billed)] == [
        "14", "24", "9", "0", "29", "22.4",
    ]  # fmt: skip
    assert (str(row.gap), str(row.gap_money), str(row.gap_percent)) == ("6.6", "$303.60", "22.8 %")
    view = november(autumn)
    assert (view.gap_money.text, view.used_money.text, str(view.gap_percent)) == ("$303.60", "$1334.00", "22.8 %")


def test_what_was_thrown_out_is_not_sold(autumn: "Floor") -> None:
    deeds.scrap_stock(
        autumn.shop, autumn.trainer, "Alder", "1/2", now=autumn.now, on=dt.date(2026, 11, 20), note="Dated out."
    )
    (row,) = november(autumn).rows
    assert (row.used and row.used.value, row.gap and row.gap.value) == (Fraction(57, 2), Fraction(61, 10))


def test_what_was_used_on_a_ticket_and_not_billed_shows_beside_what_is_on_none(autumn: "Floor") -> None:
    bonded(autumn, "T-9", "3 cartridges", dt.date(2026, 11, 12), billed="0")
    (row,) = november(autumn).rows
    assert (str(row.on_tickets), str(row.billed), str(row.gap)) == ("25.4", "22.4", "6.6")


def test_what_moves_is_taken_between_the_counts_whatever_the_calendar_says(autumn: "Floor") -> None:
    """Counted again on the 1st of December: that closes November, and the ticket of that day is in it."""
    deeds.count_stock(autumn.shop, autumn.trainer, "Alder", "8", now=autumn.now, on=dt.date(2026, 12, 1))
    bonded(autumn, "T-12", "1 cartridge", dt.date(2026, 12, 1))
    (row,) = november(autumn).rows
    assert (row.since, row.through) == (dt.date(2026, 10, 31), dt.date(2026, 12, 1))
    assert (str(row.used), str(row.billed), str(row.gap)) == ("30", "23.4", "6.6")


def test_the_end_of_a_month_is_the_start_of_the_next(autumn: "Floor") -> None:
    autumn.now = dt.datetime(2027, 1, 2, 18, tzinfo=dt.UTC)
    deeds.count_stock(autumn.shop, autumn.trainer, "Alder", "5", now=autumn.now, on=dt.date(2026, 12, 31))
    bonded(autumn, "T-20", "4 cartridges", dt.date(2026, 12, 15))
    (row,) = deeds.month_end(autumn.shop, autumn.manager, "2026-12", now=autumn.now).rows
    assert (str(row.opening), str(row.closing), str(row.used), str(row.gap)) == ("9", "5", "4", "0")


def test_without_a_count_nothing_is_worked_out_and_it_is_said(floor: "Floor") -> None:
    floor.now = dt.datetime(2026, 11, 30, 23, tzinfo=dt.UTC)
    deeds.receive_stock(floor.shop, floor.trainer, "Birch", "12", now=floor.now)
    (row,) = november(floor).rows
    assert row.used is None and row.gap is None and "no count at the start" in row.note and "not counted" in row.note
    with pytest.raises(Refusal, match="cannot be saved") as caught:
        deeds.save_month(floor.shop, floor.manager, NOVEMBER, now=floor.now)
    assert "count first" in caught.value.mend


def test_more_billed_than_used_is_said(autumn: "Floor") -> None:
    bonded(autumn, "T-30", "9 cartridges", dt.date(2026, 11, 28))
    (row,) = november(autumn).rows
    assert "more was billed than was used" in row.note and str(row.gap) == "-2.4"


def test_a_site_is_looked_at_alone_or_all_together(autumn: "Floor") -> None:
    deeds.count_stock(autumn.shop, autumn.trainer, "Alder", "3", now=autumn.now, site="south")
    assert [row.site for row in november(autumn).rows] == ["north", "south"]
    assert [row.site for row in november(autumn, site="north").rows] == ["north"]
    with pytest.raises(Refusal, match="site"):
        november(autumn, site="east")


def test_a_month_is_saved_once_and_again_when_its_figures_have_moved(autumn: "Floor") -> None:
    save = {"now": autumn.now, "site": "north"}
    number = deeds.save_month(autumn.shop, autumn.manager, NOVEMBER, **save)  # type: ignore[arg-type]
    view = november(autumn, site="north")
    assert view.saved and (view.saved.number, view.changed, view.saved.gap_money.text) == (number, False, "$303.60")
    with pytest.raises(Refusal, match="cannot be saved"):
        deeds.save_month(autumn.shop, autumn.manager, NOVEMBER, **save)  # type: ignore[arg-type]
    bonded(autumn, "T-40", "1 cartridge", dt.date(2026, 11, 15))
    assert november(autumn, site="north").changed
    again = deeds.save_month(autumn.shop, autumn.manager, NOVEMBER, **save)  # type: ignore[arg-type]
    assert again > number
    assert [one.number for one in deeds.saved_months(autumn.shop, autumn.manager)] == [again]


def test_a_withdrawn_ticket_or_count_counts_no_more(autumn: "Floor") -> None:
    ticket = bonded(autumn, "T-50", "6.6 cartridges", dt.date(2026, 11, 15))
    count = deeds.count_stock(autumn.shop, autumn.trainer, "Alder", "2", now=autumn.now, on=dt.date(2026, 11, 30))
    deeds.strike(autumn.shop, autumn.manager, f"job:{ticket}", "Typed twice.", now=autumn.now)
    deeds.strike(autumn.shop, autumn.manager, f"stock:{count}", "Wrong shelf.", now=autumn.now)
    (row,) = november(autumn).rows
    assert (str(row.closing), str(row.gap)) == ("9", "6.6")


@pytest.mark.parametrize("month", ["2026-13", "2026-00", "November", "2026-1", "0000-01", "2027-01"])
def test_what_is_no_month_and_a_month_to_come_are_refused(autumn: "Floor", month: str) -> None:
    with pytest.raises(Refusal) as caught:
        deeds.month_end(autumn.shop, autumn.manager, month, now=autumn.now)
    assert caught.value.mend


def test_who_may_look_and_who_may_save(autumn: "Floor") -> None:
    assert deeds.month_end(autumn.shop, autumn.trainer, NOVEMBER, now=autumn.now).rows
    with pytest.raises(Forbidden):
        deeds.save_month(autumn.shop, autumn.trainer, NOVEMBER, now=autumn.now)
    with pytest.raises(Forbidden):
        deeds.month_end(autumn.shop, autumn.ann, NOVEMBER, now=autumn.now)


def test_a_month_that_is_not_over_is_not_saved(autumn: "Floor") -> None:
    autumn.now = dt.datetime(2026, 12, 30, 18, tzinfo=dt.UTC)
    deeds.count_stock(autumn.shop, autumn.trainer, "Alder", "8", now=autumn.now)
    with pytest.raises(Refusal, match="December 2026 cannot be saved") as caught:
        deeds.save_month(autumn.shop, autumn.manager, "2026-12", now=autumn.now)
    assert "not over" in caught.value.mend
    assert deeds.save_month(autumn.shop, autumn.manager, "2026-12", now=autumn.later(days=1))


@pytest.mark.parametrize("seed", range(4))
def test_the_gaps_of_the_months_add_up_to_all_that_was_used_and_not_billed(floor: "Floor", seed: int) -> None:
    """Whatever days things happen on: between the first count and the last nothing is lost or told twice."""
    chance, first = random.Random(seed), dt.date(2026, 5, 3)
    floor.now = dt.datetime(2026, 9, 5, 18, tzinfo=dt.UTC)
    truly = billed = Fraction(0)
    left = Fraction(20)
    deeds.count_stock(floor.shop, floor.trainer, "Alder", "20", now=floor.now, on=first)
    for at in range(1, 123):
        day = first + dt.timedelta(days=at)
        if chance.random() < 0.3:
            used, told = chance.randrange(1, 9), chance.randrange(0, 9)
            bonded(floor, f"T-{at}", f"{used}/8 cartridge", day, billed=f"{told}/8 cartridge")
            truly, billed, left = truly + Fraction(used, 8), billed + Fraction(told, 8), left - Fraction(used, 8)
        if chance.random() < 0.05:
            deeds.receive_stock(floor.shop, floor.trainer, "Alder", "9", now=floor.now, on=day, lot=str(at))
            left += 9
        if day.day in (1, 2, 3, 17, 29, 30) and (at == 122 or chance.random() < 0.6):
            deeds.count_stock(floor.shop, floor.trainer, "Alder", str(left), now=floor.now, on=day)
            counted = (truly, billed)
    gaps = [
        row.gap.value
        for month in range(5, 10)
        for row in deeds.month_end(floor.shop, floor.manager, f"2026-{month:02}", now=floor.now).rows
        if row.gap is not None
    ]
    assert gaps and sum(gaps) == counted[0] - counted[1]
