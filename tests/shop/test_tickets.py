"""Jobs done: read as typed, written down whole or not at all, and withdrawn by a row of their own."""

import datetime as dt
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, Unknown, Use
from quizkit.shop.amounts import read_amount

if TYPE_CHECKING:
    from conftest import Floor

    from quizkit.pack.model import Pack

USED = Use("Alder", "4471", "4472", "85 mL")


def bonded(floor: "Floor", by: int = 0, **other: Any) -> int:
    told: dict[str, Any] = {"ticket": "T-1", "job": "bond", "person": floor.ann, "uses": [USED]}
    return deeds.record_job(floor.shop, by or floor.trainer, **(told | other), now=floor.now)


def day(floor: "Floor", viewer: int = 0) -> list[deeds.JobView]:
    return list(deeds.tickets(floor.shop, viewer or floor.manager, now=floor.now).jobs)


@pytest.mark.parametrize(
    ("typed", "counted", "cartridges"),
    [
        ("3", True, "3"),
        ("1/2 cartridge", False, "1/2"),
        ("2 1/2 cartridges", True, "5/2"),
        ("2½ tubes", True, "5/2"),
        ("120 mL", True, "3/5"),
        ("120", False, "3/5"),
        ("0.2 L", False, "1"),
        ("30 to 115 mL", False, "17/40"),
        ("30 mL to 115", False, "17/40"),
    ],
)
def test_an_amount_is_read_as_a_person_types_it(pack: "Pack", typed: str, counted: bool, cartridges: str) -> None:
    """The shelf's Alder comes in cartridges of 200 mL (computed by hand: 85 of 200 is 17/40)."""
    row = pack.shelf.row("Alder")
    assert row is not None and read_amount(pack, row, typed, counted=counted) == Fraction(cartridges)


@pytest.mark.parametrize("typed", ["", "cartridge", "some", "-1", "85 g", "2:1", "1 2", "115 to 30 mL", "30 to 215 mL"])
def test_an_amount_that_cannot_be_is_told_with_how_to_type_it(pack: "Pack", typed: str) -> None:
    row = pack.shelf.row("Alder")
    assert row is not None
    with pytest.raises(Refusal) as caught:
        read_amount(pack, row, typed, counted=True)
    assert caught.value.what and caught.value.mend


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=200)
@given(typed=st.text(max_size=40) | st.text(alphabet="0123456789 /.,-mLtocartridge½", max_size=30))
def test_no_text_breaks_the_reading_of_an_amount(pack: "Pack", typed: str) -> None:
    row = pack.shelf.row("Alder")
    assert row is not None
    try:
        assert read_amount(pack, row, typed, counted=True) >= 0
    except Refusal as refusal:
        assert refusal.mend


def test_a_job_keeps_its_lots_what_was_used_and_what_it_charges(floor: "Floor") -> None:
    """85 of 200 mL at $46.00 is $19.55 (computed); the shop has no markup."""
    bonded(floor, beside=floor.ben)
    (job,) = day(floor)
    assert (job.ticket, job.title, job.name, job.beside_name) == ("T-1", "Bond a panel", "Ann Bly", "Ben Cray")
    assert [(use.lot_a, use.lot_b, use.used.text, use.billed.value) for use in job.uses] == [
        ("4471", "4472", "85 mL", Fraction(17, 40))
    ]
    assert job.charge.text == "$19.55" and not job.late


def test_what_was_billed_may_be_less_than_what_was_used(floor: "Floor") -> None:
    bonded(floor, uses=[Use("Alder", "1", "2", "1/2 cartridge", "40 mL", 2)], billed="$9.20")
    (job,) = day(floor)
    assert (job.uses[0].billed.text, job.uses[0].nozzles, job.charge.text) == ("40 mL", 2, "$9.20")


@pytest.mark.parametrize(
    ("wrong", "word"),
    [
        ({"done_on": dt.date(2026, 1, 6)}, "still to come"),
        ({"ticket": "  "}, "ticket's number"),
        ({"ticket": "9" * 61}, "too long"),
        ({"job": "polish"}, "kind of job"),
        ({"site": "east"}, "site"),
        ({"person": 99}, "no person"),
        ({"uses": []}, "No material"),
        ({"uses": [Use("Elm", "1", "2", "85 mL")]}, "no material 'Elm'"),
        ({"uses": [Use("Cedar", "1", "2", "85 mL")]}, "no material 'Cedar'"),
        ({"uses": [Use("Alder", "1", " ", "85 mL")]}, "lot of side B"),
        ({"uses": [Use("Alder", "1", "2", "")]}, "not understood"),
        ({"uses": [Use("Alder", "1", "2", "0")]}, "nothing was used"),
        ({"uses": [Use("Alder", "1", "2", "8", nozzles=-1)]}, "nozzles"),
        ({"uses": [USED, Use("Alder", "1", "2", "85 g")]}, "not understood"),
        ({"billed": "a lot"}, "charge"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_is_written(floor: "Floor", wrong: dict[str, Any], word: str) -> None:
    head = floor.shop.records.head()
    with pytest.raises(Refusal, match=word) as caught:
        bonded(floor, **wrong)
    assert caught.value.mend and floor.shop.records.head() == head


def test_a_ticket_late_in_the_week_may_use_what_was_on_the_shelf_that_day(floor: "Floor") -> None:
    """Cedar left the shelf at the end of 2025."""
    bonded(floor, done_on=dt.date(2025, 12, 31), uses=[Use("cedar", "7", "8", "10 mL")])
    (job,) = deeds.tickets(floor.shop, floor.manager, now=floor.now, day=dt.date(2025, 12, 31)).jobs
    assert job.late and job.uses[0].material == "Cedar"


def test_nobody_works_beside_themselves(floor: "Floor") -> None:
    with pytest.raises(Refusal, match="beside themselves"):
        bonded(floor, beside=floor.ann)


def test_the_same_press_twice_writes_one_job(floor: "Floor") -> None:
    bonded(floor)
    with pytest.raises(Refusal, match="this very job"):
        bonded(floor)
    bonded(floor, uses=[Use("Alder", "4471", "4472", "60 mL")])
    assert len(day(floor)) == 2


def test_a_technician_writes_down_their_own_job_and_sees_no_other(floor: "Floor") -> None:
    bonded(floor, by=floor.ann)
    with pytest.raises(Forbidden):
        bonded(floor, by=floor.ben)
    assert len(day(floor, floor.ann)) == 1 and day(floor, floor.ben) == []


def test_a_wrong_ticket_is_withdrawn_by_a_manager_and_stays_readable(floor: "Floor") -> None:
    number = bonded(floor)
    with pytest.raises(Forbidden):
        deeds.strike(floor.shop, floor.ann, f"job:{number}", "Other car.", now=floor.now)
    deeds.strike(floor.shop, floor.manager, f"job:{number}", "Other car.", now=floor.now)
    assert [job.struck for job in day(floor)] == ["Other car."]
    bonded(floor)


def test_a_manager_withdraws_their_own_wrong_ticket_but_no_check_of_their_own(floor: "Floor") -> None:
    """By a ticket nobody counts as anything; by a check they do."""
    number = bonded(floor, by=floor.manager, person=floor.manager)
    assert deeds.strike(floor.shop, floor.manager, f"job:{number}", "Other car.", now=floor.now)
    form = floor.pass_check(floor.manager, "ppe")
    (result,) = floor.shop.rows("result", form=form)
    with pytest.raises(Forbidden):
        deeds.strike(floor.shop, floor.manager, f"result:{result['id']}", "Not mine.", now=floor.now)


def test_a_day_to_come_has_no_tickets(floor: "Floor") -> None:
    with pytest.raises(Refusal, match="still to come"):
        deeds.tickets(floor.shop, floor.manager, now=floor.now, day=dt.date(2026, 1, 6))
    with pytest.raises(Unknown):
        deeds.tickets(floor.shop, 99, now=floor.now)
