"""As of a day that has been: the people, the settings and the evidence of that day, whatever came later."""

import datetime as dt
from dataclasses import replace

import pytest

from quizkit import shop as deeds
from quizkit.pack.model import Pack


def day(floor) -> dt.date:
    return deeds.matrix(floor.shop, floor.manager, now=floor.now).day


def asks_for_more(pack: Pack) -> Pack:
    """The same content, but the pairing module now asks for a fit test as well."""
    modules = tuple(
        replace(one, scheme=replace(one.scheme, proofs=("fit-test",))) if one.id == "pairing" else one
        for one in pack.modules
    )
    return replace(pack, modules=modules)


def without_pairing(pack: Pack) -> Pack:
    """A shop as it was before it had the pairing module."""
    modules = tuple(one for one in pack.modules if one.id != "pairing")
    scheme = replace(
        pack.scheme,
        jobs=(),
        certificates=(),
        sites=tuple(replace(one, cover=()) for one in pack.scheme.sites),
    )
    return replace(pack, modules=modules, scheme=scheme)


@pytest.mark.parametrize("known", ["now", "then"])
def test_a_later_change_of_what_is_asked_moves_no_past_standing(floor, known: str) -> None:
    floor.clear(floor.ann)
    before = day(floor)
    floor.later(days=20)
    deeds.publish(floor.shop, asks_for_more(floor.pack), floor.manager, now=floor.now)
    assert floor.word(floor.ann) == "check passed"
    told = {"now": floor.now, "as_of": before, "known": known}
    row = deeds.matrix(floor.shop, floor.manager, skill="pairing", **told)
    assert {one.name: one.cells[0].word for one in row.rows}["Ann Bly"] == "cleared"
    assert deeds.cell(floor.shop, floor.manager, floor.ann, "pairing", **told).standing.word == "cleared"


def test_a_later_change_of_the_zone_moves_no_row_into_or_out_of_what_was_known(floor) -> None:
    """Passed in the evening in Denver, which is the next day in Lisbon: known on that day it was, and is."""
    floor.now = dt.datetime(2026, 1, 6, 4, 0, tzinfo=dt.UTC)
    floor.pass_check(floor.ann, "ppe")
    then = {"as_of": dt.date(2026, 1, 5), "known": "then"}
    scheme = replace(floor.pack.scheme, zone="Europe/Lisbon")
    deeds.publish(floor.shop, replace(floor.pack, scheme=scheme), floor.manager, now=floor.later(days=9))
    row = deeds.matrix(floor.shop, floor.manager, now=floor.now, skill="ppe", **then)
    assert {one.name: one.cells[0].word for one in row.rows}["Ann Bly"] == "cleared"
    cell = deeds.cell(floor.shop, floor.manager, floor.ann, "ppe", now=floor.now, **then)
    assert [one.kind for one in cell.chain] == ["result"]


def test_a_skill_that_came_later_is_no_column_of_an_earlier_day(tmp_path, floor) -> None:
    with deeds.open_shop(tmp_path / "young.db", create=True) as shop:
        deeds.publish(shop, without_pairing(floor.pack), None, now=floor.now)
        boss = deeds.add_person(
            shop, name="Ida Roe", role="manager", site="north", secret="seven tall green jars", by=None, now=floor.now
        )
        before = deeds.matrix(shop, boss, now=floor.now).day
        floor.later(days=3)
        deeds.publish(shop, floor.pack, boss, now=floor.now)
        assert [one.skill for one in deeds.matrix(shop, boss, now=floor.now).skills] == ["ppe", "pairing"]
        assert [one.skill for one in deeds.matrix(shop, boss, now=floor.now, as_of=before).skills] == ["ppe"]


def test_who_left_still_stands_in_the_matrix_of_an_earlier_day_by_number(floor) -> None:
    floor.clear(floor.ann)
    before = day(floor)
    deeds.leave(floor.shop, floor.ann, by=floor.manager, now=floor.later(days=5))
    assert floor.ann not in {one.person for one in deeds.matrix(floor.shop, floor.manager, now=floor.now).rows}
    then = deeds.matrix(floor.shop, floor.manager, now=floor.now, as_of=before)
    (row,) = [one for one in then.rows if one.person == floor.ann]
    assert row.name == f"Person {floor.ann}"
    assert [one.word for one in row.cells] == ["cleared", "cleared"]


def test_who_joined_later_and_who_moved_stand_where_they_stood_on_the_day(floor) -> None:
    before = day(floor)
    floor.later(days=5)
    deeds.change_person(floor.shop, floor.ann, by=floor.manager, now=floor.now, site="south")
    moved = day(floor)
    deeds.change_person(floor.shop, floor.ann, by=floor.manager, now=floor.later(days=2), role="technician")
    new = deeds.add_person(
        floor.shop, name="Cy Dent", role="apprentice", site="north", secret="4826", by=floor.manager, now=floor.now
    )
    north = deeds.matrix(floor.shop, floor.manager, now=floor.now, as_of=before, site="north")
    assert {one.person: one.role for one in north.rows}[floor.ann] == "apprentice"
    assert new not in {one.person for one in north.rows}
    south = deeds.matrix(floor.shop, floor.manager, now=floor.now, as_of=moved, site="south")
    assert {one.person: one.role for one in south.rows}[floor.ann] == "apprentice"
    today = deeds.matrix(floor.shop, floor.manager, now=floor.now, site="north")
    assert floor.ann not in {one.person for one in today.rows}
    assert new in {one.person for one in today.rows}


def test_the_morning_question_of_a_day_that_has_been_asks_who_was_there(floor) -> None:
    floor.clear(floor.ann)
    deeds.see_proof(floor.shop, floor.trainer, floor.ann, "fit-test", None, now=floor.now, detail="half mask 2")
    before = day(floor)
    floor.later(days=5)
    deeds.leave(floor.shop, floor.ann, by=floor.manager, now=floor.now)
    told = deeds.morning(floor.shop, floor.manager, "bond", now=floor.now, material="Alder", day=before)
    assert [one.person for one in told.alone] == [floor.ann]
    assert deeds.morning(floor.shop, floor.manager, "bond", now=floor.now, material="Alder").alone == ()
