"""Certificates: for who holds the whole set, valid to the earliest of its parts, checked by number and seal."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import SheetInput


@pytest.fixture
def holder(floor):
    """Ann holds both skills; Tess signed."""
    deeds.grant(floor.shop, floor.manager, floor.trainer, "pairing", now=floor.now, basis="Papers seen.", founding=True)
    floor.pass_check(floor.ann, "ppe")
    floor.later(days=30)
    floor.pass_check(floor.ann, "pairing")
    measures = {"a": "46.3", "b": "20.0", "step": "0.1"}
    filled = SheetInput(floor.ann, "pairing", "Alder", frozenset({1, 2}), measures, "scale 2, 0.1 g")
    deeds.sign_sheet(floor.shop, floor.trainer, filled, now=floor.now)
    return floor


def test_it_is_dated_and_valid_to_the_earliest_of_its_parts(holder) -> None:
    number = deeds.issue_certificate(holder.shop, holder.manager, holder.ann, "start", now=holder.now)
    view = deeds.certificate(holder.shop, holder.ann, number, now=holder.now)
    assert (view.holder, view.title, view.issuer, view.state) == ("Ann Bly", "Start", "Mo Hale", "valid")
    assert view.until == dt.date(2027, 1, 5), "protection of 5 January 2026 holds 12 months"
    assert [(row.title, row.until) for row in view.skills] == [
        ("Protection", dt.date(2027, 1, 5)),
        ("Pairing", dt.date(2027, 1, 5)),
    ]
    assert view.signers == ("Tess Orr",) and "no accredited certification" in view.says_not
    assert "check of 5 Jan 2026" in view.skills[0].evidence


def test_a_set_with_a_part_missing_is_refused_and_says_which(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    (state,) = deeds.certificate_state(floor.shop, floor.ann, floor.ann, now=floor.now)
    assert not state.complete and any("Pairing" in words for words in state.missing)
    with pytest.raises(deeds.Refusal) as refused:
        deeds.issue_certificate(floor.shop, floor.manager, floor.ann, "start", now=floor.now)
    assert "Pairing" in refused.value.mend
    with pytest.raises(deeds.Unknown):
        deeds.issue_certificate(floor.shop, floor.manager, floor.ann, "finish", now=floor.now)
    assert not floor.shop.rows("certificate")


def test_who_is_not_entitled_in_every_skill_issues_none_and_nobody_to_oneself(holder) -> None:
    for by, person in (
        (holder.trainer, holder.ann),
        (holder.ben, holder.ann),
        (holder.ann, holder.ann),
        (holder.manager, holder.manager),
    ):
        with pytest.raises(deeds.Forbidden):
            deeds.issue_certificate(holder.shop, by, person, "start", now=holder.now)


def test_it_expires_and_is_withdrawn_with_a_reason(holder) -> None:
    first = deeds.issue_certificate(holder.shop, holder.manager, holder.ann, "start", now=holder.now)
    deeds.withdraw_certificate(holder.shop, holder.trainer, first, "Issued too early.", now=holder.later(days=1))
    view = deeds.certificate(holder.shop, holder.ann, first, now=holder.now)
    assert (view.state, view.reason) == ("withdrawn", "Issued too early.")
    with pytest.raises(deeds.Refusal, match="withdrawn already"):
        deeds.withdraw_certificate(holder.shop, holder.trainer, first, "again", now=holder.now)
    second = deeds.issue_certificate(holder.shop, holder.manager, holder.ann, "start", now=holder.now)
    last = dt.datetime(2027, 1, 5, 18, tzinfo=dt.UTC)
    states = [
        deeds.certificate(holder.shop, holder.ann, second, now=last + dt.timedelta(days=days)).state for days in (0, 1)
    ]
    assert states == ["valid", "expired"]


def test_a_stranger_learns_whether_it_stands_and_no_name_and_a_wrong_seal_learns_nothing(holder) -> None:
    number = deeds.issue_certificate(holder.shop, holder.manager, holder.ann, "start", now=holder.now)
    seal = deeds.certificate(holder.shop, holder.ann, number, now=holder.now).head
    told = deeds.check_certificate(holder.shop, number, seal.upper(), now=holder.now)
    assert (told.state, told.title) == ("valid", "Start")
    assert "Ann" not in repr(told)
    for wrong in ((number, "0" * 64), (number + 1, seal), (-1, seal), (2**70, seal), (number, "")):
        with pytest.raises(deeds.Unknown):
            deeds.check_certificate(holder.shop, *wrong, now=holder.now)


def test_somebody_else_of_the_bench_does_not_see_it(holder) -> None:
    number = deeds.issue_certificate(holder.shop, holder.manager, holder.ann, "start", now=holder.now)
    with pytest.raises(deeds.Forbidden):
        deeds.certificate(holder.shop, holder.ben, number, now=holder.now)
    with pytest.raises(deeds.Forbidden):
        deeds.certificates(holder.shop, holder.ann, now=holder.now)
