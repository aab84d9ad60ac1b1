"""Entitlements, withdrawals, talks, proofs, struck rows and appeals, through the deeds."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import SheetInput

PHRASE = "nine grey anvils hum"


def sheet(person: int) -> SheetInput:
    measures = {"a": "46.3", "b": "20.0", "step": "0.1"}
    return SheetInput(person, "pairing", "Alder", frozenset({1, 2}), measures, "scale 2, 0.1 g")


def found(floor, person: int) -> int:
    return deeds.grant(floor.shop, floor.manager, person, "pairing", now=floor.now, basis="Papers seen.", founding=True)


def standing(floor, person: int, skill: str) -> deeds.StandingView:
    return next(item.standing for item in deeds.shelf(floor.shop, person, now=floor.now) if item.skill == skill)


def clear(floor, person: int) -> int:
    """Clear somebody in both skills; the number of the sheet."""
    floor.pass_check(person, "ppe")
    floor.pass_check(person, "pairing")
    return deeds.sign_sheet(floor.shop, floor.trainer, sheet(person), now=floor.now)


@pytest.mark.parametrize("founding", [False, True])
def test_a_grant_needs_an_own_clearance_or_a_written_outside_basis(floor, founding: bool) -> None:
    with pytest.raises(deeds.Refusal):
        deeds.grant(floor.shop, floor.manager, floor.trainer, "pairing", now=floor.now, basis=" ", founding=founding)
    assert not floor.shop.rows("entitlement")


def test_only_a_manager_grants_and_nobody_to_oneself_or_to_who_has_a_pin(floor) -> None:
    for by, person in ((floor.trainer, floor.manager), (floor.manager, floor.manager), (floor.manager, floor.ann)):
        with pytest.raises(deeds.Refusal):
            deeds.grant(floor.shop, by, person, "pairing", now=floor.now, basis="Papers seen.", founding=True)


def test_a_sole_manager_may_found_for_oneself_while_there_is_no_trainer(tmp_path, pack) -> None:
    now = dt.datetime(2026, 1, 5, 16, tzinfo=dt.UTC)
    with deeds.open_shop(tmp_path / "one.db", create=True) as shop:
        deeds.publish(shop, pack, None, now=now)
        mo = deeds.add_person(shop, name="Mo", role="manager", site="north", secret=PHRASE, by=None, now=now)
        deeds.grant(shop, mo, mo, "pairing", now=now, basis="Thirty years of it.", founding=True)
        assert [one.founding for one in deeds.entitlements(shop, now=now)] == [True]


def test_the_first_person_is_a_manager_added_at_the_machine(tmp_path, pack) -> None:
    now = dt.datetime(2026, 1, 5, 16, tzinfo=dt.UTC)
    add = {"site": "north", "secret": PHRASE, "by": None, "now": now}
    with deeds.open_shop(tmp_path / "one.db", create=True) as shop:
        deeds.publish(shop, pack, None, now=now)
        with pytest.raises(deeds.Forbidden, match="first person of a shop is its manager") as told:
            deeds.add_person(shop, name="Tess", role="trainer", **add)
        assert "quizkit person add" in told.value.mend, "there is no manager yet who could sign in"
        deeds.add_person(shop, name="Mo", role="manager", **add)
        with pytest.raises(deeds.Forbidden, match="Only a manager adds people"):
            deeds.add_person(shop, name="Ida", role="manager", **add)


def test_ending_an_entitlement_stops_signing_and_leaves_what_was_signed(floor) -> None:
    right = found(floor, floor.trainer)
    clear(floor, floor.ann)
    deeds.end_entitlement(floor.shop, floor.manager, right, "Has left the bench.", now=floor.later(days=1))
    assert standing(floor, floor.ann, "pairing").word == "cleared"
    with pytest.raises(deeds.Forbidden):
        deeds.sign_sheet(floor.shop, floor.trainer, sheet(floor.ben), now=floor.now)
    (view,) = deeds.entitlements(floor.shop, now=floor.now)
    assert not view.active and view.ended is not None and view.end_reason == "Has left the bench."
    with pytest.raises(deeds.Refusal, match="ended already"):
        deeds.end_entitlement(floor.shop, floor.manager, right, "again", now=floor.now)


def test_an_entitlement_holds_between_its_dates_only(floor) -> None:
    today = floor.now.date()
    deeds.grant(
        floor.shop,
        floor.manager,
        floor.trainer,
        "pairing",
        now=floor.now,
        starts=today + dt.timedelta(days=2),
        until=today + dt.timedelta(days=3),
        basis="Papers seen.",
        founding=True,
    )
    may = []
    for _day in range(5):
        view = deeds.open_sheet(floor.shop, floor.trainer, floor.ann, "pairing", now=floor.now)
        may.append(view.may_sign)
        floor.later(days=1)
    assert may == [False, False, True, True, False]


def test_a_signer_whose_own_clearance_is_withdrawn_signs_no_more_but_by_a_founding_grant(floor) -> None:
    found(floor, floor.trainer)
    clear(floor, floor.ben)
    add = {"by": floor.manager, "now": floor.now}
    deeds.change_person(floor.shop, floor.ben, role="trainer", **add)
    deeds.reset_secret(floor.shop, floor.ben, PHRASE, "now a trainer", **add)
    deeds.grant(floor.shop, floor.manager, floor.ben, "pairing", now=floor.now, basis="Cleared and watched.")
    assert deeds.open_sheet(floor.shop, floor.ben, floor.ann, "pairing", now=floor.now).may_sign
    deeds.withdraw(floor.shop, floor.manager, floor.ben, "pairing", "Forced a nozzle on.", now=floor.later(days=1))
    view = deeds.open_sheet(floor.shop, floor.ben, floor.ann, "pairing", now=floor.now)
    assert not view.may_sign and "entitled, but not cleared" in view.why_not
    assert deeds.open_sheet(floor.shop, floor.trainer, floor.ann, "pairing", now=floor.now).may_sign


def test_a_withdrawal_stands_until_it_is_ended_and_restores_only_where_that_is_said(floor) -> None:
    found(floor, floor.trainer)
    clear(floor, floor.ann)
    clear(floor, floor.ben)
    for person, restores, after in ((floor.ann, True, "cleared"), (floor.ben, False, "not started")):
        floor.later(days=1)
        number = deeds.withdraw(floor.shop, floor.trainer, person, "pairing", "No gloves, twice.", now=floor.now)
        assert standing(floor, person, "pairing").word == "withdrawn"
        with pytest.raises(deeds.Refusal, match="withdrawn already"):
            deeds.withdraw(floor.shop, floor.manager, person, "pairing", "again", now=floor.now)
        with pytest.raises(deeds.Forbidden):
            deeds.end_withdrawal(floor.shop, floor.trainer, number, "Talked over.", now=floor.now)
        deeds.end_withdrawal(
            floor.shop, floor.manager, number, "Talked over.", now=floor.later(days=1), restores=restores
        )
        assert standing(floor, person, "pairing").word == after


@pytest.mark.parametrize("deed", ["withdraw", "talk", "lift", "proof", "strike", "grant", "end"])
def test_nobody_below_a_trainer_does_any_of_it(floor, deed: str) -> None:
    right = found(floor, floor.trainer)
    floor.fail_check(floor.ann, "ppe")
    shop, by, now = floor.shop, floor.ben, floor.now
    with pytest.raises(deeds.Forbidden):
        match deed:
            case "withdraw":
                deeds.withdraw(shop, by, floor.ann, "ppe", "why", now=now)
            case "talk":
                deeds.record_talk(shop, by, floor.ann, "ppe", "what", now=now)
            case "lift":
                deeds.lift_wait(shop, by, floor.ann, "ppe", "why", now=now)
            case "proof":
                deeds.see_proof(shop, by, floor.ann, "fit-test", None, now=now)
            case "strike":
                deeds.strike(shop, by, "result:1", "why", now=now)
            case "grant":
                deeds.grant(shop, by, floor.trainer, "ppe", now=now, basis="b", founding=True)
            case "end":
                deeds.end_entitlement(shop, by, right, "why", now=now)


def test_no_deed_about_oneself(floor) -> None:
    for deed in (deeds.withdraw, deeds.record_talk, deeds.lift_wait):
        with pytest.raises(deeds.Refusal):
            deed(floor.shop, floor.trainer, floor.trainer, "ppe", "why", now=floor.now)
    with pytest.raises(deeds.Refusal):
        deeds.see_proof(floor.shop, floor.trainer, floor.trainer, "fit-test", None, now=floor.now)


@pytest.mark.parametrize("words", ["", "   ", "\n"])
def test_each_of_them_needs_its_reason(floor, words: str) -> None:
    floor.fail_check(floor.ann, "ppe")
    for deed in (deeds.withdraw, deeds.record_talk, deeds.lift_wait):
        with pytest.raises(deeds.Refusal):
            deed(floor.shop, floor.trainer, floor.ann, "ppe", words, now=floor.now)
    for table in ("withdrawal", "talk", "lift"):
        assert not floor.shop.rows(table)


def test_the_wait_after_a_failed_check_is_lifted_with_a_reason_once(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    with pytest.raises(deeds.Waiting):
        deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "ppe", "Misread one label.", now=floor.now)
    with pytest.raises(deeds.Refusal, match="lifted already"):
        deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "ppe", "again", now=floor.now)
    assert deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)


def test_a_proof_holds_as_long_as_the_settings_say_and_keeps_one_named_detail(floor) -> None:
    number = deeds.see_proof(
        floor.shop, floor.trainer, floor.ann, "fit-test", None, now=floor.now, detail="half mask, M"
    )
    row = floor.shop.get("outside_proof", number)
    assert (row["until"], row["detail"]) == (dt.date(2027, 1, 5), "half mask, M")
    early = {"until": dt.date(2026, 1, 1), "seen_on": dt.date(2026, 1, 2)}
    with pytest.raises(deeds.Refusal, match="before the paper's date"):
        deeds.see_proof(floor.shop, floor.trainer, floor.ann, "fit-test", now=floor.now, **early)
    with pytest.raises(deeds.Unknown):
        deeds.see_proof(floor.shop, floor.trainer, floor.ann, "horoscope", None, now=floor.now)


def test_a_struck_sheet_counts_no_more_and_stays_readable(floor) -> None:
    found(floor, floor.trainer)
    number = clear(floor, floor.ann)
    deeds.strike(floor.shop, floor.manager, f"sheet:{number}", "Wrong person chosen.", now=floor.later(days=1))
    assert standing(floor, floor.ann, "pairing").word == "check passed"
    assert deeds.sheet_record(floor.shop, floor.ann, number, now=floor.now).struck == "Wrong person chosen."
    with pytest.raises(deeds.Refusal, match="struck already"):
        deeds.strike(floor.shop, floor.manager, f"sheet:{number}", "again", now=floor.now)
    for row in ("person:1", "sheet:4711", "sheet:x", "nothing"):
        with pytest.raises(deeds.Refusal):
            deeds.strike(floor.shop, floor.manager, row, "why", now=floor.now)


def test_an_appeal_is_answered_by_somebody_else_and_read_by_who_made_it(floor) -> None:
    found(floor, floor.trainer)
    sheet_number = deeds.refuse_sheet(floor.shop, floor.trainer, sheet(floor.ann), "Ports not wiped.", now=floor.now)
    number = deeds.appeal(floor.shop, floor.ann, f"sheet:{sheet_number}", "I wiped them before.", now=floor.now)
    with pytest.raises(deeds.Refusal):
        deeds.appeal(floor.shop, floor.ann, f"sheet:{sheet_number}", "and again", now=floor.now)
    with pytest.raises(deeds.Forbidden):
        deeds.appeal(floor.shop, floor.ben, f"sheet:{sheet_number}", "not mine", now=floor.now)
    assert [one.number for one in deeds.waiting(floor.shop, floor.manager, now=floor.now).appeals] == [number]
    with pytest.raises(deeds.Forbidden, match="yourself"):
        deeds.answer_appeal(floor.shop, floor.trainer, number, "No.", False, now=floor.now)
    deeds.answer_appeal(floor.shop, floor.manager, number, "Seen again: wiped.", True, now=floor.now)
    with pytest.raises(deeds.Refusal, match="answered"):
        deeds.answer_appeal(floor.shop, floor.manager, number, "again", True, now=floor.now)
    assert not deeds.waiting(floor.shop, floor.manager, now=floor.now).appeals


def test_an_appeal_about_a_check_waits_until_it_is_handed_in(floor) -> None:
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    with pytest.raises(deeds.Refusal, match="still open"):
        deeds.appeal(floor.shop, floor.ann, f"form:{form}", "unfair", now=floor.now)
    floor.right_answers(form, wrong=(1,))
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.now)
    deeds.appeal(floor.shop, floor.ann, f"form:{form}", "Question 1 was unclear.", now=floor.now)
    view = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert [one.words for one in view.appeals] == ["Question 1 was unclear."] and not view.appeals[0].answered


def test_the_last_manager_stays_a_manager_and_in_the_shop(floor) -> None:
    """Somebody must be left who can let others in and out; with a second one the first may go."""
    head = floor.shop.records.head()
    with pytest.raises(deeds.Refusal, match="last manager"):
        deeds.leave(floor.shop, floor.manager, by=floor.manager, now=floor.later(minutes=1))
    with pytest.raises(deeds.Refusal, match="last manager"):
        deeds.change_person(floor.shop, floor.manager, role="trainer", by=floor.manager, now=floor.now)
    assert floor.shop.records.head() == head
    second = deeds.add_person(
        floor.shop, name="Vi Poe", role="manager", site="south", secret=PHRASE, by=floor.manager, now=floor.now
    )
    deeds.leave(floor.shop, floor.manager, by=second, now=floor.later(minutes=1))
    with pytest.raises(deeds.Refusal, match="last manager"):
        deeds.leave(floor.shop, second, by=second, now=floor.later(minutes=1))
