"""By what right: who may sign at all, and what a founding grant is shown to carry."""

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden

PHRASE = "nine grey anvils hum"


def demoted(floor) -> None:
    """The founding trainer goes back to the bench; the entitlement was not ended."""
    floor.found(floor.trainer)
    deeds.change_person(floor.shop, floor.trainer, by=floor.manager, now=floor.later(days=1), role="technician")


def test_an_entitlement_rests_while_its_holder_is_neither_trainer_nor_manager(floor) -> None:
    demoted(floor)
    with pytest.raises(Forbidden, match="only a trainer or a manager signs"):
        deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.now)
    (told,) = deeds.entitlements(floor.shop, now=floor.now)
    assert not told.active
    deeds.change_person(floor.shop, floor.trainer, by=floor.manager, now=floor.later(days=1), role="trainer")
    assert deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.now)


def test_who_left_signs_nothing_and_what_they_signed_stands(floor) -> None:
    floor.clear(floor.ann)
    deeds.leave(floor.shop, floor.trainer, by=floor.manager, now=floor.later(days=1))
    with pytest.raises(Forbidden):
        deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ben), now=floor.now)
    assert floor.word(floor.ann) == "cleared"


def test_all_that_rests_on_a_founding_grant_says_so_through_the_signers_it_made(floor) -> None:
    """The founding trainer signs for a second one, who is entitled by that clearance and signs for Ann."""
    add = {"role": "trainer", "site": "north", "secret": "eight wet clay bricks", "by": floor.manager}
    second = deeds.add_person(floor.shop, name="Una Fell", now=floor.now, **add)
    floor.clear(second)
    deeds.grant(floor.shop, floor.manager, second, "pairing", now=floor.now)
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    sheet = deeds.sign_sheet(floor.shop, second, floor.filled(floor.ann), now=floor.later(minutes=5))
    cell = deeds.cell(floor.shop, floor.manager, floor.ann, "pairing", now=floor.now)
    assert cell.rests_on_founding == ("Tess Orr: course of the maker, 2025",)
    record = deeds.sheet_record(floor.shop, floor.manager, sheet, now=floor.now)
    assert record.rests_on_founding == ("Tess Orr: course of the maker, 2025",)
    number = deeds.issue_certificate(floor.shop, floor.manager, floor.ann, "start", now=floor.now)
    shown = deeds.certificate(floor.shop, floor.manager, number, now=floor.now)
    assert shown.rests_on_founding == ("Tess Orr: course of the maker, 2025",)
    deeds.leave(floor.shop, floor.trainer, by=floor.manager, now=floor.later(days=1))
    after = deeds.certificate(floor.shop, floor.manager, number, now=floor.now)
    assert after.rests_on_founding == (f"Person {floor.trainer}: (erased)",)


def test_ending_the_founding_grant_leaves_all_that_was_signed_by_it(floor) -> None:
    sheet = floor.clear(floor.ann)
    record = deeds.sheet_record(floor.shop, floor.manager, sheet, now=floor.now)
    assert record.rests_on_founding == ("Tess Orr: course of the maker, 2025",)
    (told,) = deeds.entitlements(floor.shop, now=floor.now)
    deeds.end_entitlement(floor.shop, floor.manager, told.number, "the course ran out", now=floor.later(days=1))
    assert floor.word(floor.ann) == "cleared"
    assert deeds.cell(floor.shop, floor.manager, floor.ann, "pairing", now=floor.now).rests_on_founding
    with pytest.raises(Forbidden):
        deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ben), now=floor.now)
