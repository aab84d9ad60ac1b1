"""Rows of one day count in the order of their moments, where a clock saw them."""

import datetime as dt

from quizkit import shop as deeds
from quizkit.shop.evidence import events


def fail_critically(floor, person, skill="ppe"):
    """Fail a check by its critical questions alone."""
    form = deeds.start_check(floor.shop, person, skill, now=floor.now)
    critical = [row["item"] for row in floor.shop.rows("form_item", form=form) if row["critical"]]
    floor.right_answers(form, wrong=tuple(critical))
    deeds.hand_in(floor.shop, person, form, now=floor.later(minutes=1))


def test_a_pass_in_the_afternoon_counts_after_a_critical_fail_in_the_morning(floor) -> None:
    fail_critically(floor, floor.ann)
    deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "ppe", "misread the flame, talked over", now=floor.now)
    assert floor.word(floor.ann, "ppe") == "learning"
    floor.later(hours=3)
    floor.pass_check(floor.ann, "ppe")
    assert floor.word(floor.ann, "ppe") == "cleared"


def test_a_sheet_signed_after_a_refused_one_of_the_same_day_endorses_again(floor) -> None:
    floor.clear(floor.ann)
    refused = floor.filled(floor.ann)
    deeds.refuse_sheet(floor.shop, floor.trainer, refused, "let the ports cross", now=floor.later(minutes=30))
    assert floor.standing(floor.ann).endorsements == ()
    deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.later(minutes=30))
    (endorsed,) = floor.standing(floor.ann).endorsements
    assert (endorsed.family, endorsed.ratio) == ("adhesive", "2:1 by volume")


def test_a_check_taken_after_a_withdrawal_was_ended_the_same_day_counts(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    row = deeds.withdraw(floor.shop, floor.trainer, floor.ann, "ppe", "no mask on", now=floor.later(minutes=5))
    assert floor.word(floor.ann, "ppe") == "withdrawn"
    deeds.end_withdrawal(floor.shop, floor.manager, row, "talked over", now=floor.later(minutes=5))
    assert floor.word(floor.ann, "ppe") == "not started"
    floor.later(minutes=5)
    floor.pass_check(floor.ann, "ppe")
    assert floor.word(floor.ann, "ppe") == "cleared"


def test_a_withdrawal_entered_a_day_late_takes_away_all_of_its_day(floor) -> None:
    """No clock saw it: what was shown on that day counts as shown before it."""
    floor.pass_check(floor.ann, "ppe")
    yesterday = dt.date(2026, 1, 5)
    floor.later(days=1)
    row = deeds.withdraw(floor.shop, floor.trainer, floor.ann, "ppe", "no mask on", now=floor.now, seen_on=yesterday)
    deeds.end_withdrawal(floor.shop, floor.manager, row, "talked over", now=floor.later(minutes=5))
    assert floor.word(floor.ann, "ppe") == "not started"


def test_a_check_that_closed_by_itself_counts_from_the_moment_its_time_was_over(floor) -> None:
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    floor.right_answers(form)
    closes = floor.shop.get("form", form)["closes_at"]
    deeds.close_overdue(floor.shop, now=floor.later(days=4))
    (result,) = [one for one in events(floor.shop, floor.ann) if one.id.startswith("result:")]
    assert result.moment == closes
