"""The standings kept in memory are those of the pure function, whatever is done and however time passes."""

import datetime as dt
import random
import shutil
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.records import key_path

if TYPE_CHECKING:
    from conftest import Floor

Cells = list[tuple[int, tuple[deeds.StandingView, ...]]]


def kept(floor: "Floor") -> Cells:
    view = deeds.matrix(floor.shop, floor.manager, now=floor.now)
    return [(row.person, row.cells) for row in view.rows]


def worked_out(floor: "Floor") -> Cells:
    """The matrix as of a day is worked out anew each time: as of today it must say the same."""
    today = deeds.matrix(floor.shop, floor.manager, now=floor.now).day
    view = deeds.matrix(floor.shop, floor.manager, now=floor.now, as_of=today)
    return [(row.person, row.cells) for row in view.rows]


def _withdraw(floor: "Floor", person: int) -> None:
    deeds.withdraw(floor.shop, floor.manager, person, "pairing", "A bond failed", now=floor.now)


def _end_withdrawal(floor: "Floor", person: int) -> None:
    row = floor.shop.row("withdrawal", person=person)
    if row is not None:
        deeds.end_withdrawal(floor.shop, floor.manager, row["id"], "Trained again", now=floor.now, restores=True)


def _strike(floor: "Floor", person: int) -> None:
    row = floor.shop.row("sheet", person=person)
    if row is not None:
        deeds.strike(floor.shop, floor.manager, f"sheet:{row['id']}", "Wrong person", now=floor.now)


def _practise(floor: "Floor", person: int) -> None:
    asked = deeds.practise(floor.shop, person, "ppe", now=floor.now)
    deeds.answer_practice(floor.shop, person, asked.draw, {"answer": "12 ppm"}, now=floor.now)


def _refuse(floor: "Floor", person: int) -> None:
    deeds.refuse_sheet(floor.shop, floor.trainer, floor.filled(person), "Ports not wiped", now=floor.now)


DEEDS: tuple[Callable[["Floor", int], object], ...] = (
    lambda floor, person: floor.clear(person),
    lambda floor, person: floor.pass_check(person, "ppe"),
    lambda floor, person: floor.fail_check(person, "ppe"),
    lambda floor, person: deeds.see_proof(floor.shop, floor.trainer, person, "fit-test", None, now=floor.now),
    lambda floor, person: floor.later(days=40),
    lambda floor, person: floor.later(days=400),
    lambda floor, person: deeds.rename_person(floor.shop, person, f"P {floor.now}", by=floor.manager, now=floor.now),
    _withdraw,
    _end_withdrawal,
    _strike,
    _practise,
    _refuse,
)


@pytest.mark.parametrize("seed", range(4))
def test_after_any_deed_the_kept_standings_are_those_worked_out_anew(floor: "Floor", seed: int) -> None:
    chance = random.Random(seed)
    words = set()
    floor.found(floor.trainer)
    for _turn in range(14):
        deed, person = chance.choice(DEEDS), chance.choice((floor.ann, floor.ben))
        try:
            deed(floor, person)
        except deeds.Refusal:
            floor.later(days=2)
        assert kept(floor) == worked_out(floor)
        words |= {cell.word for _person, cells in kept(floor) for cell in cells}
    assert len(words) > 1


def test_a_copy_put_back_is_what_is_shown(floor: "Floor") -> None:
    before = floor.path.with_name("before.db")
    floor.shop.records.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    shutil.copy(floor.path, before)
    floor.clear(floor.ann)
    assert any(cell.word == "cleared" for _person, cells in kept(floor) for cell in cells)
    floor.shop.close()
    shutil.copy(before, floor.path)  # over the same file, so that only the chain tells
    shutil.copy(key_path(floor.path), key_path(before))
    with deeds.open_shop(floor.path) as floor.shop:
        assert kept(floor) == worked_out(floor)
        assert not any(cell.word == "cleared" for _person, cells in kept(floor) for cell in cells)


def test_who_joins_is_there_and_who_leaves_is_not(floor: "Floor") -> None:
    kept(floor)
    new = deeds.add_person(
        floor.shop, name="New One", role="apprentice", site="north", secret="2795", by=floor.manager, now=floor.now
    )
    assert new in [person for person, _cells in kept(floor)]
    deeds.leave(floor.shop, floor.ann, by=floor.manager, now=floor.later(minutes=1))
    assert floor.ann not in [person for person, _cells in kept(floor)] and kept(floor) == worked_out(floor)


def test_a_clock_that_is_an_hour_behind_changes_nothing(floor: "Floor") -> None:
    floor.clear(floor.ann)
    floor.later(days=3)
    first = kept(floor)
    floor.now -= dt.timedelta(days=2)
    assert kept(floor) == worked_out(floor)
    floor.now += dt.timedelta(days=2)
    assert kept(floor) == first
