"""What holds for every history: order of recording, the past as known then, more evidence, needs, month ends."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from quizkit.standing.awaiting import sheet_awaited
from quizkit.standing.counting import known_by, order
from quizkit.standing.dates import Term
from quizkit.standing.events import (
    CheckResult,
    Event,
    OutsideProof,
    Practice,
    Remark,
    Sheet,
    Struck,
    Withdrawal,
    WithdrawalEnd,
)
from quizkit.standing.record import record
from quizkit.standing.scheme import Scheme, Skill
from quizkit.standing.standing import Standing, standing

PERSON = "ama"
DAY_0 = dt.date(2025, 1, 31)
HEIGHT = {"not started": 0, "learning": 1, "check passed": 2, "lapsed": 3, "lapsing": 4, "cleared": 5}
ALLOWED = {"not touch": 0, "beside": 1, "alone": 2}
SKILLS = ("ppe", "beads", "bonding")

# Short terms, so that renewals, lapses and their edges come up often in a small range of days.
SCHEME = Scheme(
    skills=(
        Skill("ppe", Term(days=60)),
        Skill("beads", Term(months=2), practical=True),
        Skill("bonding", Term(days=60), needs=("ppe", "beads"), proofs=("fit-test",), practical=True),
    ),
    first="ppe",
    lapsing=20,
    pair_within=15,
)

days = st.integers(min_value=0, max_value=100)
families = st.sampled_from(["adhesive", "filler"])


def at(day: int) -> dt.date:
    return DAY_0 + dt.timedelta(days=day)


def row(event: type[Event], number: int, day: int, late: int, **more: object) -> Event:
    recorded = dt.datetime.combine(at(day + late), dt.time(12), dt.UTC)
    return event(id=f"r{number}", person=PERSON, seen_on=at(day), recorded_at=recorded, **more)


@st.composite
def good_row(draw: st.DrawFn, number: int) -> Event:
    """A row that lowers nothing."""
    day, late, skill = draw(days), draw(st.integers(0, 30)), draw(st.sampled_from(SKILLS))
    match draw(st.integers(0, 5)):
        case 0:
            return row(Practice, number, day, late, skill=skill)
        case 1 | 2:
            form = draw(st.sampled_from(["full", "full", "renewal"]))
            return row(CheckResult, number, day, late, skill=skill, passed=draw(st.booleans()), form=form)
        case 3 | 4:
            by = draw(st.sampled_from(["bo", "bo", PERSON]))
            outcome = draw(st.sampled_from(["signed", "signed", "observed"]))
            more = {"skill": skill, "outcome": outcome, "signed_by": by, "family": draw(families)}
            return row(Sheet, number, day, late, **more)
    return row(OutsideProof, number, day, late, kind="fit-test", until=at(day + draw(st.integers(0, 120))))


@st.composite
def any_row(draw: st.DrawFn, number: int) -> Event:
    """Any row, those that lower among them."""
    day, late, skill = draw(days), draw(st.integers(0, 30)), draw(st.sampled_from(SKILLS))
    other = f"r{draw(st.integers(0, max(0, number - 1)))}"
    match draw(st.integers(0, 9)):
        case 0:
            return row(CheckResult, number, day, late, skill=skill, passed=False, critical_missed=True, form="renewal")
        case 1:
            return row(Sheet, number, day, late, skill=skill, outcome="refused", family=draw(families))
        case 2:
            return row(Withdrawal, number, day, late, skill=skill, reason="seen at work")
        case 3:
            more = {"withdrawal": other, "reason": "trained", "restores": draw(st.booleans())}
            return row(WithdrawalEnd, number, day, late, **more)
        case 4:
            return row(Struck, number, day, late, row=other, reason="wrong person")
        case 5:
            signer = draw(st.sampled_from(["", "bo"]))
            return row(Remark, number, day, late, check=other, passed=draw(st.booleans()), signed_by=signer)
    return draw(good_row(number))


@st.composite
def started(draw: st.DrawFn) -> list[Event]:
    """How people really get there: checks, sheets and proofs close to each other, in every skill or in some."""
    begun = draw(st.integers(0, 10))
    rows: list[Event] = []
    for skill in draw(st.sampled_from([SKILLS, SKILLS, ("ppe", "beads"), ("beads",), ("bonding",), ()])):
        check = begun + draw(st.integers(0, 8))
        more = {"outcome": "signed", "signed_by": "bo", "family": draw(families)}
        rows.append(row(CheckResult, len(rows), check, 0, skill=skill, passed=True))
        sheet = check + draw(st.integers(-8, 8))
        if draw(st.sampled_from([True, True, True, False])):
            rows.append(row(Sheet, len(rows), max(0, sheet), draw(st.integers(0, 30)), skill=skill, **more))
        if draw(st.booleans()):
            renewed = check + draw(st.integers(45, 58))
            rows.append(row(CheckResult, len(rows), renewed, 0, skill=skill, passed=True, form="renewal"))
            rows.append(row(Sheet, len(rows), renewed + draw(st.integers(-3, 3)), 0, skill=skill, **more))
    if rows and draw(st.sampled_from([True, True, True, False])):
        until = at(begun + draw(st.integers(0, 120)))
        rows.append(row(OutsideProof, len(rows), begun, 0, kind="fit-test", until=until))
    return rows


@st.composite
def histories(draw: st.DrawFn, good: bool = False, most: int = 6) -> list[Event]:
    """What people began with, some more pairs of any kind, then rows of every sort."""
    rows = draw(started())
    for skill in draw(st.lists(st.sampled_from(SKILLS), max_size=2)):
        check, sheet, form = draw(days), draw(st.integers(-15, 15)), draw(st.sampled_from(["full", "full", "renewal"]))
        more = {"outcome": "signed", "signed_by": "bo", "family": draw(families)}
        rows.append(row(CheckResult, len(rows), check, 0, skill=skill, passed=True, form=form))
        rows.append(row(Sheet, len(rows), max(0, check + sheet), draw(st.integers(0, 30)), skill=skill, **more))
    kind = good_row if good else any_row
    return rows + [draw(kind(len(rows) + number)) for number in range(draw(st.integers(0, most)))]


def all_of(rows: list[Event], day: int) -> list[Standing]:
    return [standing(rows, SCHEME, PERSON, skill, at(day)) for skill in SKILLS]


@given(histories(), days, st.randoms(use_true_random=False))
def test_as_known_now_the_order_of_recording_never_matters(rows: list[Event], day: int, chance: object) -> None:
    """Neither the order in which rows are given nor when they were recorded."""
    stamps = [one.recorded_at for one in rows]
    shuffled = list(rows)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    chance.shuffle(stamps)  # type: ignore[attr-defined]
    other = [replace(one, recorded_at=stamp) for one, stamp in zip(shuffled, stamps, strict=True)]
    assert all_of(rows, day) == all_of(other, day)


@given(histories(), histories(), days, days)
def test_a_past_as_known_then_never_changes(before: list[Event], later: list[Event], day: int, known: int) -> None:
    """Whatever is recorded after a moment, what was known by then gives the same standing."""
    moment = dt.datetime.combine(at(known), dt.time(23, 59), dt.UTC)
    come = [
        replace(one, id=f"later-{one.id}", recorded_at=moment + dt.timedelta(minutes=1 + n))
        for n, one in enumerate(later)
    ]
    then = [standing(known_by(before, moment), SCHEME, PERSON, skill, at(day)) for skill in SKILLS]
    now = [standing(known_by(before + come, moment), SCHEME, PERSON, skill, at(day)) for skill in SKILLS]
    assert then == now


def stands_higher(new: Standing, old: Standing) -> bool:
    """Whether a standing is nowhere below another: neither its word nor what it allows."""
    if "withdrawn" in (new.word, old.word):
        return new.word == old.word or old.word == "withdrawn"
    return HEIGHT[new.word] >= HEIGHT[old.word] and ALLOWED[new.may] >= ALLOWED[old.may]


def redates_a_pair(rows: list[Event], more: Event) -> bool:
    """The one case in which time speaks: an older sheet, entered late, before the one that completed a pair."""
    return isinstance(more, Sheet) and any(
        isinstance(one, Sheet) and one.skill == more.skill and order(one) > order(more) for one in rows
    )


@settings(max_examples=settings.default.max_examples * 4)
@given(histories(), good_row(99), days)
def test_more_evidence_never_lowers_a_standing(rows: list[Event], more: Event, day: int) -> None:
    """A row that is no refusal, withdrawal or critical fail leaves every standing where it is or raises it."""
    assume(not redates_a_pair(rows, more))
    for old, new in zip(all_of(rows, day), all_of([*rows, more], day), strict=True):
        assert stands_higher(new, old), (old, new)
        if old.clear and old.until is not None and new.until is not None:
            assert new.until >= old.until


def endorsed(found: Standing) -> dict[tuple[str, str], dt.date]:
    return {(one.family, one.ratio): one.until for one in found.endorsements}


@given(histories(), good_row(99), days)
def test_more_evidence_takes_no_endorsement_away_and_shortens_none(rows: list[Event], more: Event, day: int) -> None:
    """Only a refused sheet does, and what takes the clearance itself."""
    assume(not redates_a_pair(rows, more))
    for old, new in zip(all_of(rows, day), all_of([*rows, more], day), strict=True):
        if new.clear:
            kept = endorsed(new)
            assert all(kept.get(key, dt.date.min) >= until for key, until in endorsed(old).items())


@given(histories(), days, st.sampled_from(("beads", "bonding")))
def test_a_refused_sheet_takes_one_endorsement_and_no_standing(rows: list[Event], day: int, skill: str) -> None:
    """Of whoever had it: the others stay, and so do the word and every date."""
    refused = row(Sheet, 99, day, 0, skill=skill, outcome="refused", family="adhesive")
    old, new = (standing(each, SCHEME, PERSON, skill, at(day)) for each in (rows, [*rows, refused]))
    assert ("adhesive", "") not in endorsed(new)
    assert {key: until for key, until in endorsed(old).items() if key[0] != "adhesive"} == endorsed(new)
    if old.word != "not started":
        assert (new.word, new.until, new.may) == (old.word, old.until, old.may)


@settings(max_examples=settings.default.max_examples * 3)
@given(histories(), days, st.sampled_from(("beads", "bonding")))
def test_a_sheet_on_the_last_day_told_completes_the_check_and_one_a_day_later_does_not(
    rows: list[Event], day: int, skill: str
) -> None:
    """What trainers are told to sign by is neither too late nor too early."""
    seen = [one for one in rows if one.seen_on <= at(day)]
    found = record(seen, SCHEME, PERSON, at(day))
    awaited = sheet_awaited(found, SCHEME, skill)
    if awaited is None:
        return
    last = (awaited.until - DAY_0).days
    before = {one.rows for one in found.held[skill].made}
    for late, done in ((0, True), (1, False)):
        sheet = row(Sheet, 99, last + late, 0, skill=skill, outcome="signed", signed_by="bo", family="filler")
        made = record([*seen, sheet], SCHEME, PERSON, at(last + late)).held[skill].made
        new = [one for one in made if one.rows not in before]
        assert any("r99" in one.rows for one in new) == done


@given(histories(), st.sampled_from(SKILLS), days, st.integers(0, 60), st.booleans())
def test_after_a_withdrawal_is_ended_earlier_rows_count_again_only_if_its_end_says_so(
    rows: list[Event], skill: str, day: int, until: int, restores: bool
) -> None:
    """While it stands nothing else is shown; nothing that was seen before it is in the evidence unless restored."""
    rows = [one for one in rows if not isinstance(one, Withdrawal | WithdrawalEnd | Struck)]
    taken = row(Withdrawal, 98, day, 0, skill=skill, reason="seen at work")
    end = row(WithdrawalEnd, 99, day + until, 0, withdrawal="r98", reason="trained again", restores=restores)
    withdrawn = standing([*rows, taken], SCHEME, PERSON, skill, at(day + until))
    assert (withdrawn.word, withdrawn.may) == ("withdrawn", "not touch")
    now = standing([*rows, taken, end], SCHEME, PERSON, skill, at(day + until))
    without = standing(rows, SCHEME, PERSON, skill, at(day + until))
    if not restores:
        old = {one.id for one in rows if one.seen_on < at(day) and not isinstance(one, OutsideProof)}
        assert not old & set(now.evidence)
    elif without.clear:
        assert replace(now, since=without.since) == without


@given(histories(good=True), days, days)
def test_an_older_sheet_entered_late_only_makes_a_clearance_begin_and_end_earlier(
    rows: list[Event], day: int, seen: int
) -> None:
    """It takes at most `pair_within` days from an end, and nobody is below 'lapsed' for it who was cleared."""
    more = row(Sheet, 99, seen, 0, skill="beads", outcome="signed", signed_by="bo", family="filler")
    old = standing(rows, SCHEME, PERSON, "beads", at(day))
    new = standing([*rows, more], SCHEME, PERSON, "beads", at(day))
    if old.clear:
        assert new.word in ("cleared", "lapsing", "lapsed")
    elif old.word != "lapsed":
        assert HEIGHT[new.word] >= HEIGHT[old.word]


@settings(max_examples=settings.default.max_examples * 4)
@given(histories(), days)
def test_nobody_counts_as_cleared_without_every_need_and_outside_proof(rows: list[Event], day: int) -> None:
    bonding = standing(rows, SCHEME, PERSON, "bonding", at(day))
    if bonding.clear:
        assert all(standing(rows, SCHEME, PERSON, need, at(day)).clear for need in ("ppe", "beads"))
        assert any(isinstance(one, OutsideProof) and one.seen_on <= at(day) <= one.until for one in rows)


@given(histories(), days, st.integers(0, 90))
def test_whoever_is_cleared_stays_so_to_the_day_told_and_no_longer(rows: list[Event], day: int, ahead: int) -> None:
    """`holds_until` is the last day that counts, if nothing more is seen: cover and the months ahead rest on it."""
    seen = [one for one in rows if one.seen_on <= at(day)]
    for now in all_of(seen, day):
        if now.clear:
            then = standing(seen, SCHEME, PERSON, now.skill, at(day + ahead))
            assert now.holds_until is not None
            assert then.clear == (at(day + ahead) <= now.holds_until)


@given(histories(), days)
def test_what_is_seen_later_says_nothing_about_an_earlier_day(rows: list[Event], day: int) -> None:
    assert all_of(rows, day) == all_of([one for one in rows if one.seen_on <= at(day)], day)


@given(histories(), days)
def test_a_standing_rests_on_rows_that_exist_and_were_seen(rows: list[Event], day: int) -> None:
    seen = {one.id for one in rows if one.seen_on <= at(day)}
    for found in all_of(rows, day):
        assert set(found.evidence) <= seen
        assert {one.sheet for one in found.endorsements} <= seen
        if found.word != "not started":
            assert found.evidence


@given(st.dates(dt.date(2000, 1, 1), dt.date(2090, 1, 1)), st.integers(1, 60), st.integers(1, 4))
def test_ends_agree_with_dateutil_through_renewals(start: dt.date, months: int, renewals: int) -> None:
    """Each renewal runs from the old end, month ends included, never from the day it was done."""
    scheme = Scheme(skills=(Skill("ppe", Term(months=months)),), lapsing=10)
    rows: list[Event] = []
    end, seen = start, start
    for number in range(renewals + 1):
        recorded = dt.datetime.combine(seen, dt.time(12), dt.UTC)
        form = "full" if number == 0 else "renewal"
        rows.append(
            CheckResult(
                id=f"r{number}", person=PERSON, seen_on=seen, recorded_at=recorded, skill="ppe", passed=True, form=form
            )
        )
        end = end + relativedelta(months=months)
        assert standing(rows, scheme, PERSON, "ppe", end).until == end
        assert standing(rows, scheme, PERSON, "ppe", end + dt.timedelta(days=1)).word == "lapsed"
        seen = end - dt.timedelta(days=5)


@pytest.mark.parametrize("gone", [0, 1, 2])
def test_evidence_of_other_people_and_skills_changes_nothing(gone: int) -> None:
    rows = [row(CheckResult, n, n, 0, skill=skill, passed=True) for n, skill in enumerate(SKILLS)]
    others = [replace(one, person="bo", id=f"other-{one.id}") for one in rows]
    assert all_of(rows + others, 5) == all_of(rows, 5)
    kept = [one for n, one in enumerate(rows) if n != gone]
    assert standing(kept, SCHEME, PERSON, SKILLS[gone], at(5)).word == "not started"
