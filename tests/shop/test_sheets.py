"""Sheets through the deeds: judged as typed, parked, signed, refused, observed and countersigned; never for oneself."""

import dataclasses
import datetime as dt
from collections.abc import Callable

import pytest

from quizkit import shop as deeds
from quizkit.shop import SheetInput

PHRASE = "nine grey anvils hum"
PAPER = b"\x89PNG\r\n\x1a\n" + b"\0" * 40
"""A photo of a sheet on paper, as far as the shop looks at it."""
TARGET = 2 * 1.10 / 0.95
"""Grams of A to a gram of B of the material Alder: 2:1 by volume, densities 1.10 and 0.95 g/mL (by hand)."""


@pytest.fixture
def signer(floor) -> int:
    """The trainer, entitled by a founding grant."""
    deeds.grant(
        floor.shop, floor.manager, floor.trainer, "pairing", now=floor.now, basis="Course papers seen.", founding=True
    )
    return floor.trainer


def filled(person: int, **other: object) -> SheetInput:
    made = SheetInput(
        person=person,
        skill="pairing",
        material="Alder",
        seen=frozenset({1, 2}),
        measures={"a": f"{20 * TARGET:.1f}", "b": "20.0", "step": "0.1"},
        instrument="scale 2, 0.1 g",
    )
    return dataclasses.replace(made, **other)


def standing(floor, person: int, skill: str = "pairing") -> deeds.StandingView:
    return next(item.standing for item in deeds.shelf(floor.shop, person, now=floor.now) if item.skill == skill)


def test_two_weighed_shots_are_judged_as_typed_and_nothing_is_written(floor, signer: int) -> None:
    off = deeds.judge_sheet(
        floor.shop, signer, filled(floor.ann, measures={"a": "40", "b": "20", "step": "0.1"}), now=floor.now
    )
    ratio, scale = off.judged
    assert ratio.satisfied is False and scale.satisfied is True
    assert ratio.shown.startswith(("-13.6", "−13.6")), "40 : 20 against 2.316 is 13.6 % under (by hand)"
    part = deeds.judge_sheet(floor.shop, signer, filled(floor.ann, measures={"a": "4,x", "b": "20"}), now=floor.now)
    assert [one.satisfied for one in part.judged] == [None, None]
    assert [bool(one.unread) for one in part.measures] == [True, False, False]
    assert not floor.shop.rows("sheet")


def test_a_signed_sheet_and_a_check_clear_together_until_the_earlier_of_their_ends(floor, signer: int) -> None:
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    waits = standing(floor, floor.ann)
    assert (waits.word, waits.note) == ("check passed", "sheet by 5 Apr 2026"), "90 days after 5 January"
    number = deeds.sign_sheet(floor.shop, signer, filled(floor.ann), now=floor.later(hours=1))
    seen = standing(floor, floor.ann)
    assert seen.word == "cleared" and seen.endorsements[0].family == "adhesive"
    assert seen.ends == standing(floor, floor.ann, "ppe").ends == dt.date(2027, 1, 5), "protection ends first"
    record = deeds.sheet_record(floor.shop, floor.ann, number, now=floor.now)
    assert record.outcome == "signed" and "founding" in record.right and "Course papers seen." in record.right
    assert [step.seen for step in record.steps] == [True, True, False]
    assert all(one.satisfied for one in record.judged) and record.by == "Tess Orr"


Deed = Callable[[deeds.Shop, int, SheetInput, dt.datetime], object]


def _sign(shop: deeds.Shop, by: int, sheet: SheetInput, now: dt.datetime) -> object:
    return deeds.sign_sheet(shop, by, sheet, now=now)


def _refuse(shop: deeds.Shop, by: int, sheet: SheetInput, now: dt.datetime) -> object:
    return deeds.refuse_sheet(shop, by, sheet, "Ports were not wiped.", now=now)


def _observe(shop: deeds.Shop, by: int, sheet: SheetInput, now: dt.datetime) -> object:
    return deeds.observe_sheet(shop, by, sheet, now=now)


@pytest.mark.parametrize("deed", [_sign, _refuse, _observe])
def test_nobody_does_it_for_oneself_or_without_the_right(floor, signer: int, deed: Deed) -> None:
    with pytest.raises(deeds.Refusal):
        deed(floor.shop, signer, filled(signer), floor.now)
    for stranger in (floor.manager, floor.ben, floor.ann):
        with pytest.raises(deeds.Refusal):
            deed(floor.shop, stranger, filled(floor.ann), floor.now)
    assert not floor.shop.rows("sheet")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"seen": frozenset({1, 3})}, "step 2 must be seen and was not"),
        ({"material": ""}, "no material is picked"),
        ({"material": "Cedar"}, "no material is picked"),
        ({"instrument": " "}, "the instrument is missing"),
        ({"measures": {"a": "40", "b": "20", "step": "0.1"}}, "it should be"),
        ({"measures": {"a": "46.3", "b": "20"}}, "not measured"),
    ],
)
def test_a_sheet_that_lacks_something_is_not_signed_and_says_what(
    floor,
    signer: int,
    change: dict[str, object],
    said: str,
) -> None:
    with pytest.raises(deeds.Refusal) as refused:
        deeds.sign_sheet(floor.shop, signer, filled(floor.ann, **change), now=floor.now)
    assert said in refused.value.mend
    assert not floor.shop.rows("sheet")


def test_a_sheet_seen_in_the_days_to_come_is_refused(floor, signer: int) -> None:
    ahead = filled(floor.ann, seen_on=floor.now.date() + dt.timedelta(days=1))
    with pytest.raises(deeds.Refusal, match="still to come"):
        deeds.sign_sheet(floor.shop, signer, ahead, now=floor.now)


def test_a_sheet_entered_afterwards_counts_from_the_day_it_was_seen_and_says_that_it_was_late(
    floor, signer: int
) -> None:
    seen_on = floor.now.date()
    late = filled(floor.ann, seen_on=seen_on)
    for deed in (deeds.sign_sheet, deeds.observe_sheet):
        with pytest.raises(deeds.Refusal, match="photo of its paper"):
            deed(floor.shop, signer, late, now=floor.later(days=2))
    late = dataclasses.replace(late, photo=PAPER)
    number = deeds.sign_sheet(floor.shop, signer, late, now=floor.now)
    assert deeds.photo(floor.shop, signer, number) == (PAPER, "image/png")
    record = deeds.sheet_record(floor.shop, signer, number, now=floor.now)
    assert record.late and record.seen_on == seen_on and record.recorded_at.date() == floor.now.date()


def test_a_parked_sheet_comes_back_as_it_was_and_goes_when_it_is_signed(floor, signer: int) -> None:
    half = filled(floor.ann, seen=frozenset({1}), measures={"a": "46.3"}, note="nozzle on tomorrow")
    deeds.park_sheet(floor.shop, signer, half, now=floor.now)
    back = deeds.open_sheet(floor.shop, signer, floor.ann, "pairing", now=floor.later(days=1))
    assert back.parked and [step.seen for step in back.steps] == [True, False, False]
    assert [one.typed for one in back.measures] == ["46.3", "", ""] and back.note == "nozzle on tomorrow"
    assert [one.person for one in deeds.waiting(floor.shop, signer, now=floor.now).parked] == [floor.ann]
    deeds.sign_sheet(floor.shop, signer, filled(floor.ann), now=floor.now)
    assert not deeds.waiting(floor.shop, signer, now=floor.now).parked
    assert not deeds.open_sheet(floor.shop, signer, floor.ann, "pairing", now=floor.now).parked


def test_a_refused_sheet_is_kept_and_ends_the_endorsement_until_a_later_one(floor, signer: int) -> None:
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    deeds.sign_sheet(floor.shop, signer, filled(floor.ann), now=floor.now)
    assert standing(floor, floor.ann).endorsements
    floor.later(days=1)
    _refuse(floor.shop, signer, filled(floor.ann), floor.now)
    assert not standing(floor, floor.ann).endorsements
    floor.later(days=1)
    deeds.sign_sheet(floor.shop, signer, filled(floor.ann), now=floor.now)
    assert standing(floor, floor.ann).endorsements
    assert [row["outcome"] for row in floor.shop.rows("sheet")] == ["signed", "refused", "signed"]


def test_observed_sheets_clear_nobody_until_one_passphrase_signs_them_all(floor, signer: int) -> None:
    for person in (floor.ann, floor.ben):
        floor.pass_check(person, "ppe")
        floor.pass_check(person, "pairing")
    sheets = [_observe(floor.shop, signer, filled(person), floor.now) for person in (floor.ann, floor.ben)]
    assert standing(floor, floor.ann).word == "check passed"
    listed = deeds.waiting(floor.shop, signer, now=floor.now).to_sign
    assert sorted(one.sheet for one in listed) == sheets and all(one.entitled for one in listed)
    with pytest.raises(deeds.Refusal):
        deeds.sign_observed(floor.shop, signer, sheets, "not the passphrase", now=floor.now)
    with pytest.raises(deeds.Refusal):
        deeds.sign_observed(floor.shop, signer, [*sheets, 4711], PHRASE, now=floor.later(hours=1))
    assert not floor.shop.rows("signature"), "all of them, or none"
    deeds.sign_observed(floor.shop, signer, sheets, PHRASE, now=floor.now)
    assert {standing(floor, person).word for person in (floor.ann, floor.ben)} == {"cleared"}
    with pytest.raises(deeds.Refusal, match="signed already"):
        deeds.sign_observed(floor.shop, signer, sheets, PHRASE, now=floor.now)


def test_a_cleared_helper_observes_for_a_trainer_who_signs_later(floor, signer: int) -> None:
    for person in (floor.ann, floor.ben):
        floor.pass_check(person, "ppe")
        floor.pass_check(person, "pairing")
    deeds.sign_sheet(floor.shop, signer, filled(floor.ben), now=floor.now)
    seen = deeds.open_sheet(floor.shop, floor.ben, floor.ann, "pairing", now=floor.now)
    assert not seen.may_sign and seen.why_not
    number = deeds.observe_sheet(floor.shop, floor.ben, filled(floor.ann), now=floor.now)
    assert standing(floor, floor.ann).word == "check passed"
    deeds.sign_observed(floor.shop, signer, [number], PHRASE, now=floor.later(days=2))
    assert standing(floor, floor.ann).word == "cleared"
    record = deeds.sheet_record(floor.shop, floor.ann, number, now=floor.now)
    assert record.observer == "Ben Cray" and [name for _number, name, _at in record.signatures] == ["Tess Orr"]


def test_a_sheet_of_somebody_else_is_closed_to_who_may_neither_sign_nor_observe_it(floor, signer: int) -> None:
    with pytest.raises(deeds.Forbidden):
        deeds.open_sheet(floor.shop, floor.ben, floor.ann, "pairing", now=floor.now)
    with pytest.raises(deeds.Forbidden):
        deeds.judge_sheet(floor.shop, floor.ben, filled(floor.ann), now=floor.now)
    number = deeds.sign_sheet(floor.shop, signer, filled(floor.ann), now=floor.now)
    with pytest.raises(deeds.Forbidden):
        deeds.sheet_record(floor.shop, floor.ben, number, now=floor.now)
    with pytest.raises(deeds.Forbidden):
        deeds.photo(floor.shop, floor.ben, number)


def test_a_skill_without_a_sheet_says_that_its_check_alone_clears(floor, signer: int) -> None:
    with pytest.raises(deeds.Refusal, match="has no sheet"):
        deeds.open_sheet(floor.shop, signer, floor.ann, "ppe", now=floor.now)


def test_who_waits_is_listed_until_the_sheet_is_signed(floor, signer: int) -> None:
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    waits = deeds.waiting(floor.shop, signer, now=floor.now).sheets
    assert [(one.person, one.skill, one.entitled) for one in waits] == [(floor.ann, "pairing", True)]
    assert not deeds.waiting(floor.shop, floor.manager, now=floor.now).sheets[0].entitled
    assert not deeds.waiting(floor.shop, signer, now=floor.now, site="south").sheets
    deeds.sign_sheet(floor.shop, signer, filled(floor.ann), now=floor.now)
    assert not deeds.waiting(floor.shop, signer, now=floor.now).sheets


def test_a_cleared_helper_opens_the_sheets_of_others_and_not_their_own(floor) -> None:
    floor.clear(floor.ben)
    assert deeds.open_sheet(floor.shop, floor.ben, floor.ann, "pairing", now=floor.now).person == floor.ann
    for deed in (deeds.park_sheet, deeds.judge_sheet):
        with pytest.raises(deeds.Forbidden, match="not yours"):
            deed(floor.shop, floor.ben, filled(floor.ben), now=floor.now)
    with pytest.raises(deeds.Forbidden, match="not yours"):
        deeds.open_sheet(floor.shop, floor.ben, floor.ben, "pairing", now=floor.now)
