"""A trainer on a visit to another site: days of the place, helpers who watch, many sheets and one passphrase."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal

PHRASE = "nine grey anvils hum"


@pytest.fixture
def visit(floor):
    """Ben (south, UTC) is cleared and watches; Cy and Di (south) wait for their sheets; the trainer is of the north."""
    floor.clear(floor.ben)
    add = {"role": "apprentice", "site": "south", "secret": "4826", "by": floor.manager}
    floor.cy, floor.di = (
        deeds.add_person(floor.shop, name=name, now=floor.now, **add) for name in ("Cy Dent", "Di Eck")
    )
    for person in (floor.cy, floor.di):
        floor.pass_check(person, "ppe")
        floor.pass_check(person, "pairing")
    return floor


def watched(visit) -> list[int]:
    """The sheets that Ben observed."""
    return [
        deeds.observe_sheet(visit.shop, visit.ben, visit.filled(person), now=visit.later(minutes=3))
        for person in (visit.cy, visit.di)
    ]


def test_the_trainer_sees_what_waits_at_the_site_of_the_visit(visit) -> None:
    waits = deeds.waiting(visit.shop, visit.trainer, now=visit.now, site="south")
    assert [(one.name, one.skill, one.entitled) for one in waits.sheets] == [
        ("Cy Dent", "pairing", True),
        ("Di Eck", "pairing", True),
    ]
    assert deeds.waiting(visit.shop, visit.trainer, now=visit.now, site="north").sheets == ()


def test_a_cleared_helper_watches_and_clears_nobody_until_the_visitor_signs_them_together(visit) -> None:
    sheets = watched(visit)
    assert [visit.word(person) for person in (visit.cy, visit.di)] == ["check passed", "check passed"]
    visit.later(days=3)
    to_sign = deeds.waiting(visit.shop, visit.trainer, now=visit.now, site="south").to_sign
    assert [(one.sheet, one.observer) for one in to_sign] == [(sheet, "Ben Cray") for sheet in sheets]
    deeds.sign_observed(visit.shop, visit.trainer, sheets, PHRASE, now=visit.now)
    assert [visit.word(person) for person in (visit.cy, visit.di)] == ["cleared", "cleared"]
    since = visit.standing(visit.cy).since
    assert since == dt.date(2026, 1, 5), "the day it was seen, not the day it was signed"


@pytest.mark.parametrize("wrong", ["wrong passphrase", "a sheet of the trainer's own", "a sheet signed already"])
def test_all_of_them_are_signed_or_none(visit, wrong: str) -> None:
    sheets, phrase = watched(visit), PHRASE
    match wrong:
        case "wrong passphrase":
            phrase = "nine grey anvils sing"
        case "a sheet of the trainer's own":
            sheets.append(deeds.observe_sheet(visit.shop, visit.ben, visit.filled(visit.trainer), now=visit.now))
        case "a sheet signed already":
            deeds.sign_observed(visit.shop, visit.trainer, sheets[:1], PHRASE, now=visit.later(minutes=1))
    before = visit.shop.count("signature")
    with pytest.raises(Refusal):
        deeds.sign_observed(visit.shop, visit.trainer, sheets, phrase, now=visit.later(minutes=1))
    assert visit.shop.count("signature") == before


def test_who_is_not_cleared_watches_for_nobody_and_nobody_watches_themselves(visit) -> None:
    with pytest.raises(Forbidden, match="not cleared"):
        deeds.observe_sheet(visit.shop, visit.cy, visit.filled(visit.di), now=visit.now)
    with pytest.raises(Forbidden, match="for themselves"):
        deeds.observe_sheet(visit.shop, visit.ben, visit.filled(visit.ben), now=visit.now)


def test_a_helper_who_lapsed_since_leaves_what_was_watched_and_watches_no_more(visit) -> None:
    sheets = watched(visit)
    deeds.withdraw(visit.shop, visit.manager, visit.ben, "pairing", "forced a nozzle", now=visit.later(minutes=5))
    with pytest.raises(Forbidden, match="not cleared"):
        deeds.observe_sheet(visit.shop, visit.ben, visit.filled(visit.di), now=visit.now)
    assert deeds.sign_observed(visit.shop, visit.trainer, sheets, PHRASE, now=visit.later(minutes=5))


def test_the_day_of_a_sheet_is_the_one_at_the_learners_site(visit) -> None:
    """At 02:00 UTC it is still the evening before in Denver, where the trainer is at home."""
    visit.now = dt.datetime(2026, 1, 9, 2, 0, tzinfo=dt.UTC)
    south = deeds.sign_sheet(visit.shop, visit.trainer, visit.filled(visit.cy), now=visit.now)
    visit.pass_check(visit.ann, "ppe")
    north = deeds.sign_sheet(visit.shop, visit.trainer, visit.filled(visit.ann), now=visit.now)
    days = [visit.shop.get("sheet", number)["seen_on"] for number in (south, north)]
    assert days == [dt.date(2026, 1, 9), dt.date(2026, 1, 8)]


def test_nobody_stands_beside_somebody_at_another_site(visit) -> None:
    """Ben may do it alone in the south; Ann of the north has nobody there to stand beside."""
    for person in (visit.ben, visit.cy):
        deeds.see_proof(visit.shop, visit.trainer, person, "fit-test", None, now=visit.now)
    visit.pass_check(visit.ann, "ppe")
    visit.pass_check(visit.ann, "pairing")
    told = deeds.morning(visit.shop, visit.manager, "bond", now=visit.now, material="Alder")
    assert [one.name for one in told.alone] == ["Ben Cray"]
    assert {one.name: one.beside for one in told.beside} == {"Cy Dent": ("Ben Cray",), "Di Eck": ("Ben Cray",)}
    assert "Ann Bly" in {one.name for one in told.neither}
