"""The table of standings, line by line, and the rules under it."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from quizkit.standing.counting import known_by
from quizkit.standing.dates import Term
from quizkit.standing.events import CheckResult, Sheet, Terms
from quizkit.standing.scheme import Scheme, SchemeError, Skill
from quizkit.standing.standing import standing

DAY_0 = dt.date(2025, 1, 1)


def at(days: int) -> dt.date:
    return DAY_0 + dt.timedelta(days=days)


def test_nothing_yet_is_not_started_and_may_not_touch(story: Any) -> None:
    found = story.on(0)
    assert (found.word, found.may, found.evidence) == ("not started", "not touch", ())


@pytest.mark.parametrize("begun", ["practice", "failed check", "sheet", "refused sheet"])
def test_practice_a_failed_check_or_a_sheet_without_a_check_is_learning(story: Any, begun: str) -> None:
    story.check(0, "ppe")
    match begun:
        case "practice":
            story.practice(1)
        case "failed check":
            story.check(1, passed=False)
        case "sheet":
            story.sheet(1)
        case _:
            story.sheet(1, outcome="refused")
    found = story.on(2)
    assert (found.word, found.may, found.since) == ("learning", "beside", at(1))


def test_a_learner_stands_beside_nobody_before_the_first_skill_is_cleared(story: Any) -> None:
    story.practice(0)
    assert story.on(1).may == "not touch"
    assert story.on(1).because[0].words() == "not at the bench yet: PPE must be cleared first"
    story.practice(1, "ppe")
    assert story.on(1, "ppe").because[0].words() == "not at the bench before this is cleared"
    story.check(2, "ppe")
    assert story.on(2).may == "beside"


def test_a_passed_check_waits_for_its_sheet_until_it_can_no_longer_be_paired(story: Any) -> None:
    story.check(0)
    found = story.on(90)
    assert (found.word, found.may, found.until) == ("check passed", "beside", at(90))
    assert story.word(91) == "learning"


@pytest.mark.parametrize(("check", "sheet"), [(0, 30), (30, 0), (0, 90), (90, 0), (0, 0)])
def test_a_pair_in_either_order_clears_from_the_later_one(story: Any, check: int, sheet: int) -> None:
    story.check(check)
    story.sheet(sheet)
    later = max(check, sheet)
    assert story.word(later - 1) != "cleared"
    found = story.on(later)
    assert (found.word, found.may, found.since, found.until) == ("cleared", "alone", at(later), at(later + 365))
    assert set(found.evidence) == {"r0", "r1"}


@pytest.mark.parametrize(("check", "sheet"), [(0, 91), (91, 0)])
def test_a_check_and_a_sheet_too_far_apart_are_no_pair(story: Any, check: int, sheet: int) -> None:
    story.check(check)
    story.sheet(sheet)
    assert story.word(91) in ("check passed", "learning")


def test_a_skill_without_a_sheet_is_cleared_by_its_check(story: Any) -> None:
    story.check(0, "ppe")
    assert story.word(0, "ppe") == "cleared"


def test_the_end_is_inclusive_and_lapsing_begins_its_days_before(story: Any) -> None:
    story.pair(0)
    days = {day: story.word(day) for day in (304, 305, 365, 366)}
    assert days == {304: "cleared", 305: "lapsing", 365: "lapsing", 366: "lapsed"}
    assert (story.on(366).may, story.on(366).until, story.on(366).since) == ("beside", at(365), at(366))
    assert [reason.words() for reason in story.on(366).because] == ["the clearance has ended"]


def test_a_renewal_in_the_window_runs_from_the_old_end(story: Any) -> None:
    story.pair(0)
    story.check(310, form="renewal")
    assert story.on(320).until == at(365)
    story.sheet(330)
    assert story.on(330).until == at(365 + 365)
    assert story.word(400) == "cleared"


@pytest.mark.parametrize(("check", "sheet"), [(304, 310), (310, 366), (300, 300), (366, 366)])
def test_a_renewal_check_and_its_sheet_both_lie_in_the_window(story: Any, check: int, sheet: int) -> None:
    story.pair(0)
    story.check(check, form="renewal")
    story.sheet(sheet)
    assert story.word(366) == "lapsed"


def test_a_full_pair_before_the_window_is_a_clearance_of_its_own(story: Any) -> None:
    story.pair(0)
    story.pair(200)
    assert story.on(200).until == at(565)


def test_a_renewal_check_alone_never_clears_someone_new(story: Any) -> None:
    story.pair(0, form="renewal")
    assert story.word(0) == "learning"


def test_a_further_sheet_alone_moves_no_date_and_endorses_to_the_end_of_the_clearance(story: Any) -> None:
    story.pair(0)
    story.sheet(40, family="filler", ratio="50:1 by weight")
    found = story.on(41)
    assert found.until == at(365)
    assert [(one.family, one.since, one.until) for one in found.endorsements] == [
        ("adhesive", at(0), at(365)),
        ("filler", at(40), at(365)),
    ]


def test_a_renewal_carries_only_the_endorsement_of_its_own_sheet_past_the_old_end(story: Any) -> None:
    story.pair(0)
    story.sheet(40, family="filler")
    story.check(320, form="renewal")
    story.sheet(330)
    assert {one.family: one.until for one in story.on(340).endorsements} == {"adhesive": at(730), "filler": at(365)}
    assert [one.family for one in story.on(366).endorsements] == ["adhesive"]


def test_a_failed_renewal_leaves_the_standing_until_it_lapses(story: Any) -> None:
    story.pair(0)
    story.check(310, passed=False, form="renewal")
    assert [story.word(day) for day in (310, 365, 366)] == ["lapsing", "lapsing", "lapsed"]


def test_a_wrong_critical_answer_lapses_at_once_and_a_new_pair_clears_again(story: Any) -> None:
    story.pair(0)
    fail = story.check(310, critical=True, form="renewal")
    found = story.on(310)
    assert (found.word, found.until) == ("lapsed", at(309))
    assert found.because[0].words() == "a critical answer was wrong"
    assert fail in found.evidence
    story.check(312)
    assert story.word(312) == "lapsed"
    story.sheet(315)
    assert story.on(315).until == at(315 + 365)


def test_a_check_from_before_a_critical_fail_pairs_with_no_later_sheet(story: Any) -> None:
    story.check(0)
    story.check(5, critical=True)
    story.sheet(10)
    assert story.word(10) == "learning"


def test_moments_put_the_rows_of_one_day_in_order(story: Any) -> None:
    story.sheet(0)
    story.check(1, critical=True, moment="08:00")
    story.check(1, moment="15:00")
    assert story.word(1) == "cleared"


def test_a_pass_after_a_critical_fail_of_the_same_day_clears_though_one_before_it_did_too(story: Any) -> None:
    story.sheet(0)
    story.check(1, moment="08:00")
    story.check(1, critical=True, moment="10:00")
    assert story.word(1) != "cleared"
    story.check(1, moment="15:00")
    assert story.word(1) == "cleared"


def test_a_pair_does_not_renew_itself_where_validity_is_shorter_than_the_window() -> None:
    scheme = Scheme(skills=(Skill("beads", Term(days=30), practical=True),), lapsing=60)
    told = dt.datetime(2025, 1, 1, 12, tzinfo=dt.UTC)
    rows = [
        CheckResult(id=f"c{day}", person="ama", seen_on=at(day), recorded_at=told, skill="beads", passed=True)
        for day in (0, 5)
    ]
    sheet = Sheet(id="s", person="ama", seen_on=at(10), recorded_at=told, skill="beads", outcome="signed")
    assert standing([*rows, sheet], scheme, "ama", "beads", at(10)).until == at(40)


def test_a_clearance_rests_on_the_last_of_the_sheets_before_its_check(story: Any) -> None:
    story.sheet(0)
    last = story.sheet(2)
    check = story.check(5)
    assert set(story.on(5).evidence) == {last, check}


def test_without_a_moment_a_critical_fail_counts_as_the_last_of_its_day(story: Any) -> None:
    story.check(1)
    story.check(1, critical=True)
    story.sheet(2)
    assert story.word(2) == "learning"


def test_a_withdrawal_stands_until_ended_and_may_not_touch(story: Any) -> None:
    story.pair(0)
    row = story.withdraw(10)
    found = story.on(400)
    assert (found.word, found.may, found.evidence, found.since) == ("withdrawn", "not touch", (row,), at(10))
    assert found.because[0].words() == "withdrawn: off-ratio shots on a ticket"
    assert story.word(9) == "cleared"


def test_after_a_withdrawal_earlier_evidence_counts_only_if_its_end_says_so(story: Any) -> None:
    story.pair(0)
    row = story.withdraw(10)
    story.end_withdrawal(20, row)
    assert (story.word(19), story.word(20)) == ("withdrawn", "not started")
    story.end_withdrawal(30, row, restores=True)
    assert story.on(30).until == at(365)


def test_a_new_pair_after_a_withdrawal_clears_once_it_is_ended(story: Any) -> None:
    story.pair(0)
    row = story.withdraw(10)
    story.pair(15)
    assert story.word(15) == "withdrawn"
    story.end_withdrawal(20, row)
    assert (story.word(20), story.on(20).until) == ("cleared", at(380))


def test_what_was_seen_on_the_day_of_a_withdrawal_but_after_it_counts_once_it_is_ended(story: Any) -> None:
    row = story.withdraw(10, moment="08:00")
    story.check(10, moment="15:00")
    story.sheet(11)
    story.end_withdrawal(12, row)
    assert story.word(12) == "cleared"


def test_having_been_cleared_outlives_the_withdrawals_of_what_it_needed(story: Any) -> None:
    story.proof(0, 40)
    story.check(0, "ppe")
    story.pair(0, "beads")
    story.pair(0, "bonding")
    story.end_withdrawal(60, story.withdraw(50, "ppe"))
    story.check(61, "ppe")
    story.end_withdrawal(80, story.withdraw(70, "ppe"))
    assert (story.on(81, "bonding").word, story.on(81, "bonding").until) == ("lapsed", at(40))


def test_each_of_two_withdrawals_has_to_be_ended(story: Any) -> None:
    story.pair(0)
    first, second = story.withdraw(10), story.withdraw(11)
    story.end_withdrawal(20, first, restores=True)
    assert story.word(20) == "withdrawn"
    story.end_withdrawal(21, second, restores=True)
    assert story.word(21) == "cleared"


def test_a_refused_sheet_ends_the_endorsement_of_its_family_and_ratio_until_a_later_one(story: Any) -> None:
    story.pair(0)
    story.sheet(5, family="filler", ratio="50:1 by weight")
    story.sheet(10, outcome="refused")
    assert story.word(10) == "cleared"
    assert [one.family for one in story.on(10).endorsements] == ["filler"]
    story.sheet(12)
    assert [one.family for one in story.on(12).endorsements] == ["adhesive", "filler"]


def test_nobody_is_cleared_by_an_own_or_an_unsigned_sheet(story: Any) -> None:
    story.check(0)
    story.sheet(1, signed_by="ama")
    story.sheet(1, outcome="observed", signed_by="")
    assert story.word(2) == "check passed"


def test_needs_and_proofs_carry_through_and_their_dependents_say_so(story: Any) -> None:
    story.check(0, "ppe")
    story.pair(0, "beads")
    story.pair(0, "bonding")
    assert story.word(0, "bonding") == "check passed"
    assert [reason.words() for reason in story.on(0, "bonding").because] == ["because of Fit test"]
    story.proof(1, 100)
    found = story.on(1, "bonding")
    assert (found.word, found.until, found.holds_until) == ("cleared", at(365), at(100))
    assert [(reason.words(), reason.day) for reason in found.because] == [("because of Fit test", at(100))]
    assert "r5" in found.evidence
    lapsed = story.on(101, "bonding")
    assert (lapsed.word, lapsed.may, lapsed.until) == ("lapsed", "beside", at(100))
    assert [(reason.words(), reason.day) for reason in lapsed.because] == [("because of Fit test", at(100))]


def test_dependents_return_with_their_own_evidence_when_the_need_returns(story: Any) -> None:
    story.proof(0, 900)
    story.check(0, "ppe")
    story.pair(0, "beads")
    story.pair(0, "bonding")
    row = story.withdraw(50, "ppe")
    found = story.on(60, "bonding")
    assert (found.word, [reason.words() for reason in found.because]) == ("lapsed", ["because of PPE"])
    story.end_withdrawal(70, row)
    assert story.word(70, "ppe") == "not started"
    assert story.word(70, "bonding") == "lapsed"
    story.check(71, "ppe")
    assert story.on(71, "bonding").until == at(365)


def test_a_remark_raises_at_once_and_lowers_only_when_signed(story: Any) -> None:
    check = story.check(0, passed=False)
    story.sheet(1)
    assert story.word(5) == "learning"
    story.remark(10, check, passed=True)
    assert (story.word(9), story.on(10).word, story.on(10).until) == ("learning", "cleared", at(366))
    story.remark(20, check, passed=False)
    assert story.word(20) == "cleared"
    story.remark(30, check, passed=False, signed_by="bo")
    assert story.word(30) == "learning"


def test_a_struck_row_counts_no_more(story: Any) -> None:
    story.check(0)
    sheet = story.sheet(1)
    story.strike(10, sheet)
    assert (story.word(9), story.word(10)) == ("cleared", "check passed")


def test_a_row_keeps_the_terms_it_arose_under(scheme: Scheme) -> None:
    recorded = dt.datetime(2025, 1, 31, 12, tzinfo=dt.UTC)
    old = Terms(Term(months=1), 90, 10)
    day = dt.date(2025, 1, 31)
    rows = (
        CheckResult(id="c", person="ama", seen_on=day, recorded_at=recorded, skill="beads", passed=True, terms=old),
        Sheet(
            id="s", person="ama", seen_on=day, recorded_at=recorded, skill="beads", outcome="signed",
            signed_by="bo", terms=old,
        ),
    )  # fmt: skip
    assert standing(rows, scheme, "ama", "beads", day).until == dt.date(2025, 2, 28)


def test_as_known_then_looks_at_when_it_was_recorded_and_as_known_now_at_when_it_was_seen(story: Any) -> None:
    story.check(0)
    story.sheet(5)
    on_day_9 = dt.datetime(2025, 1, 10, 23, 59, tzinfo=dt.UTC)
    check, sheet = story.rows
    rows = [check, replace(sheet, recorded_at=dt.datetime(2025, 1, 20, 8, tzinfo=dt.UTC))]
    assert standing(known_by(rows, on_day_9), story.scheme, "ama", "beads", at(9)).word == "check passed"
    assert standing(rows, story.scheme, "ama", "beads", at(9)).word == "cleared"


def test_a_scheme_with_a_circle_or_an_unknown_name_is_refused_with_the_names() -> None:
    term = Term(days=1)
    with pytest.raises(SchemeError, match="a → b → a"):
        Scheme(skills=(Skill("a", term, needs=("b",)), Skill("b", term, needs=("a",))))
    with pytest.raises(SchemeError, match="no skill 'c'"):
        Scheme(skills=(Skill("a", term, needs=("c",)),))
    with pytest.raises(SchemeError, match="same id"):
        Scheme(skills=(Skill("a", term), Skill("a", term)))


def test_an_unknown_skill_is_refused_and_the_known_ones_are_named(scheme: Scheme) -> None:
    with pytest.raises(SchemeError, match="the shop has: ppe, beads, bonding"):
        standing((), scheme, "ama", "welding", DAY_0)
