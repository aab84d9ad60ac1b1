"""Who next: the plan over the shop's own evidence, with what has been read already taken off."""

from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Floor


def _plan(floor: "Floor", **asked: object) -> deeds.PlanView:
    return deeds.plan(floor.shop, floor.manager, now=floor.now, **asked)  # type: ignore[arg-type]


def _does(view: deeds.PlanView) -> list[tuple[str, str, str, int]]:
    return sorted((row.name, row.kind, row.skill, row.minutes) for row in view.rows)


def test_a_new_shop_is_told_whom_to_train_and_where_nobody_is_enough(floor: "Floor") -> None:
    view = _plan(floor, site="south")
    assert [(one.title, one.wanted, one.reachable) for one in view.short] == [("Pairing", 2, 1)]
    assert _does(view) == [("Ben Cray", "train", "pairing", 55), ("Ben Cray", "train", "ppe", 25)]
    assert (view.minutes, view.exact, view.wanted) == (80, True, True)
    assert {row.reason for row in view.rows} <= {"Pairing: one short", "Pairing, Protection: one short",
                                                 "Protection, Pairing: one short"}  # fmt: skip


def test_what_was_read_already_is_time_saved(floor: "Floor") -> None:
    deeds.lesson_read(floor.shop, floor.ben, "ppe", "ppe/1-air", now=floor.now)
    minutes = {row.skill: row.minutes for row in _plan(floor, site="south").rows}
    assert minutes == {"ppe": 13, "pairing": 55}
    deeds.lesson_read(floor.shop, floor.ben, "ppe", "ppe/2-signs", now=floor.now)
    assert {row.skill: row.minutes for row in _plan(floor, site="south").rows}["ppe"] == 8, "its check still takes"


def test_who_is_spared_is_asked_for_nothing(floor: "Floor") -> None:
    view = _plan(floor, site="south", spared=[floor.ben])
    assert view.rows == () and view.spared == ((floor.ben, "Ben Cray"),)


def test_a_plan_is_for_who_teaches_and_within_reach(floor: "Floor") -> None:
    with pytest.raises(deeds.Forbidden):
        deeds.plan(floor.shop, floor.ann, now=floor.now)
    with pytest.raises(deeds.Unknown):
        _plan(floor, site="west")
    for weeks in (0, -3, 105):
        with pytest.raises(deeds.Refusal):
            _plan(floor, weeks=weeks)
