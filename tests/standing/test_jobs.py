"""The morning question, certificates, the right to sign, the gate before a check, and a change of product."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from quizkit.standing.certificates import holding_of
from quizkit.standing.crew import Person, crew
from quizkit.standing.dates import Term
from quizkit.standing.events import CheckResult, Entitlement, EntitlementEnd, Sheet
from quizkit.standing.gate import ProductChange, asked_again, check_due
from quizkit.standing.jobs import JobError, Morning, who_may
from quizkit.standing.record import record
from quizkit.standing.rights import against_granting, founded_on, right_to_sign
from quizkit.standing.scheme import Job, Scheme, SchemeError, Skill

DAY_0 = dt.date(2025, 1, 1)
TOLD = dt.datetime(2025, 1, 1, 12, tzinfo=dt.UTC)


def at(days: int) -> dt.date:
    return DAY_0 + dt.timedelta(days=days)


def bonder(story: Any, family: str = "adhesive", fit_until: int = 300) -> Any:
    """Somebody with all three skills and a fit test."""
    story.proof(0, fit_until)
    story.check(0, "ppe")
    for skill in ("beads", "bonding"):
        story.check(0, skill)
        story.sheet(0, skill, family=family)
    return story


def morning(told: list[Any], scheme: Scheme, day: int, sites: dict[str, str] | None = None, **more: str) -> Morning:
    people = [Person(story.person, (sites or {}).get(story.person, "north")) for story in told]
    rows = [replace(row, id=f"{story.person}-{row.id}") for story in told for row in story.rows]
    return who_may(crew(rows, scheme, people, at(day)), "panel", **more)


def names(lines: Any) -> list[str]:
    return [one.person.id for one in lines]


def why(one: Any) -> list[str]:
    return [reason.words() for reason in one.because]


def test_alone_needs_the_skills_the_endorsed_material_and_the_outside_proof(stories: Any, scheme: Scheme) -> None:
    able = bonder(stories("ama"))
    filler = bonder(stories("bo"), family="filler")
    no_fit = bonder(stories("cleo"), fit_until=50)
    new = stories("dov")
    found = morning([able, filler, no_fit, new], scheme, 100)
    assert names(found.alone) == ["ama"]
    assert found.alone[0].until == at(300)
    assert names(found.beside) == ["bo", "cleo"]
    assert found.beside[0].beside == ("ama",)
    assert why(found.beside[0]) == [
        "Beads: no sheet with adhesive 2:1 by volume",
        "Bonding: no sheet with adhesive 2:1 by volume",
    ]
    assert why(found.beside[1]) == ["Bonding is not cleared", "Fit test is not in date"]
    assert names(found.neither) == ["dov"]


def test_whoever_may_not_touch_one_of_the_skills_is_kept_from_the_job(stories: Any, scheme: Scheme) -> None:
    able, half = bonder(stories("ama")), stories("bo")
    half.pair(0)
    assert names(morning([able, half], scheme, 10).neither) == ["bo"]


def test_alone_lasts_to_the_first_end_of_skills_endorsement_and_proofs(stories: Any, scheme: Scheme) -> None:
    story = bonder(stories("ama"))
    story.proof(0, 40, kind="course")
    jobs = (Job("course-job", skills=("beads",), proofs=("course",)), Job("bead", skills=("beads",)))
    asks = replace(scheme, jobs=jobs)
    able = crew(story.rows, asks, [Person("ama")], at(10))
    assert who_may(able, "course-job").alone[0].until == at(40)
    assert who_may(able, "bead").alone[0].until == at(365)
    story.check(320, form="renewal")
    story.sheet(330, family="filler")
    renewed = crew(story.rows, asks, [Person("ama")], at(340))
    assert who_may(renewed, "bead", family="filler").alone[0].until == at(730)
    assert who_may(renewed, "bead", family="adhesive").alone[0].until == at(365)


def test_a_skill_without_a_sheet_needs_no_endorsement(stories: Any, scheme: Scheme) -> None:
    story = bonder(stories("ama"))
    asks = replace(scheme, jobs=(Job("spray", skills=("ppe", "beads"), family="adhesive"),))
    assert names(who_may(crew(story.rows, asks, [Person("ama")], at(10)), "spray").alone) == ["ama"]


def test_nobody_stands_beside_where_nobody_at_the_site_may_do_it_alone(stories: Any, scheme: Scheme) -> None:
    able, other = bonder(stories("ama")), bonder(stories("bo"), family="filler")
    found = morning([able, other], scheme, 100, {"ama": "south"})
    assert (names(found.alone), names(found.beside), names(found.neither)) == (["ama"], [], ["bo"])
    assert why(found.neither[0])[-1] == "nobody at this site may do it alone today"


def test_a_refused_sheet_takes_the_job_with_that_material_away(stories: Any, scheme: Scheme) -> None:
    able = bonder(stories("ama"))
    able.sheet(50, "beads", outcome="refused")
    assert names(morning([able], scheme, 49).alone) == ["ama"]
    assert why(morning([able], scheme, 50).neither[0])[0] == "Beads: no sheet with adhesive 2:1 by volume"


def test_a_material_that_the_job_does_not_allow_is_refused_with_what_it_asks_for(stories: Any, scheme: Scheme) -> None:
    with pytest.raises(JobError, match="asks for adhesive 2:1 by volume; this material is filler 50:1 by weight"):
        morning([bonder(stories("ama"))], scheme, 1, family="filler", ratio="50:1 by weight")


def test_a_job_without_a_family_asks_for_the_material_in_hand(stories: Any, scheme: Scheme) -> None:
    story = bonder(stories("ama"))
    able = crew(story.rows, scheme, [Person("ama")], at(1))
    assert names(who_may(able, "seal").alone) == ["ama"]
    assert names(who_may(able, "seal", family="adhesive").alone) == ["ama"]
    assert names(who_may(able, "seal", family="sealer").alone) == []


def test_an_unknown_job_is_refused_and_the_known_ones_are_named(scheme: Scheme) -> None:
    with pytest.raises(SchemeError, match="the shop has: panel, seal"):
        who_may(crew([], scheme, [], DAY_0), "weld")


def test_a_certificate_needs_every_part_and_ends_with_the_first_of_them(story: Any) -> None:
    story.check(0, "ppe")
    found = holding_of(record(story.rows, story.scheme, "ama", at(1)), story.scheme, "both")
    assert (found.complete, found.until) == (False, None)
    assert [reason.words() for reason in found.missing] == ["Beads is not cleared"]
    story.pair(20)
    found = holding_of(record(story.rows, story.scheme, "ama", at(21)), story.scheme, "both")
    assert (found.complete, found.until) == (True, at(365))


def grant(
    person: str, starts: int = 0, until: int | None = None, founding: bool = False, name: str = "e"
) -> Entitlement:
    last = None if until is None else at(until)
    return Entitlement(
        id=name, person=person, seen_on=at(starts), recorded_at=TOLD, skill="beads", starts=at(starts), until=last,
        founding=founding, basis="trade school, three years of teaching it" if founding else "",
    )  # fmt: skip


def test_only_the_entitled_sign_and_never_for_themselves(stories: Any, scheme: Scheme) -> None:
    trainer = stories("bo")
    trainer.pair(0)
    rows = [*trainer.rows, grant("bo", 5, until=50)]
    assert right_to_sign(rows, scheme, "bo", "beads", at(10), "ama").holds
    assert not right_to_sign(rows, scheme, "bo", "beads", at(4), "ama").holds
    assert not right_to_sign(rows, scheme, "bo", "beads", at(51), "ama").holds
    assert not right_to_sign(rows, scheme, "bo", "ppe", at(10), "ama").holds
    assert why(right_to_sign(rows, scheme, "bo", "beads", at(10), "bo")) == ["nobody signs for oneself"]


def test_an_entitlement_needs_the_own_clearance_unless_it_is_a_founding_one(stories: Any, scheme: Scheme) -> None:
    trainer = stories("bo")
    trainer.pair(0)
    trainer.withdraw(20)
    rows = [*trainer.rows, grant("bo")]
    assert right_to_sign(rows, scheme, "bo", "beads", at(19)).holds
    assert why(right_to_sign(rows, scheme, "bo", "beads", at(20))) == ["entitled, but not cleared in Beads"]
    founded = right_to_sign([grant("bo", founding=True)], scheme, "bo", "beads", at(1))
    assert founded.entitlement is not None and founded.entitlement.founding


def test_a_right_by_own_clearance_comes_before_a_founding_one(stories: Any, scheme: Scheme) -> None:
    trainer = stories("bo")
    trainer.pair(0)
    rows = [*trainer.rows, grant("bo", founding=True, name="a"), grant("bo", name="b")]
    found = right_to_sign(rows, scheme, "bo", "beads", at(1))
    assert found.entitlement is not None and found.entitlement.id == "b"


def test_the_end_of_an_entitlement_leaves_the_sheets_signed_before_it(story: Any) -> None:
    story.check(0)
    story.sheet(5)
    over = EntitlementEnd(id="x", person="bo", seen_on=at(10), recorded_at=TOLD, entitlement="e", reason="left")
    rows = [*story.rows, grant("bo", founding=True), over]
    assert not right_to_sign(rows, story.scheme, "bo", "beads", at(10)).holds
    assert record(rows, story.scheme, "ama", at(11)).held["beads"].counted


def test_a_founding_grant_needs_its_basis_in_writing_and_any_other_the_own_clearance(story: Any) -> None:
    assert against_granting([], story.scheme, "bo", "beads", DAY_0, True, "  ")
    assert not against_granting([], story.scheme, "bo", "beads", DAY_0, True, "maker's course, paper seen")
    assert against_granting([], story.scheme, "ama", "beads", at(1), False, "")
    story.pair(0)
    assert not against_granting(story.rows, story.scheme, "ama", "beads", at(1), False, "")


def test_a_standing_tells_the_founding_grants_it_rests_on_through_its_signers(stories: Any, scheme: Scheme) -> None:
    trainer, learner = stories("bo"), stories("ama")
    trainer.check(0)
    trainer.sheet(0, signed_by="founder")
    learner.check(10)
    learner.sheet(10, signed_by="bo")
    rows = [replace(row, id=f"{story.person}-{row.id}") for story in (trainer, learner) for row in story.rows]
    rows += [grant("founder", founding=True, name="first"), grant("bo", 1, name="second")]
    assert founded_on(rows, scheme, "ama", "beads", at(11)) == ("first",)
    assert founded_on(rows, scheme, "founder", "beads", at(11)) == ()


def test_a_check_waits_for_what_it_needs_and_a_renewal_is_due_in_its_window(story: Any) -> None:
    def due(day: int, skill: str) -> Any:
        return check_due(record(story.rows, story.scheme, "ama", at(day)), story.scheme, skill)

    assert [reason.words() for reason in due(0, "bonding").waits] == [
        "PPE comes first: it must be cleared",
        "Beads comes first: it must be cleared",
    ]
    story.check(0, "ppe")
    story.pair(0)
    assert due(1, "bonding").waits == ()
    assert [due(day, "beads").form for day in (0, 304, 305, 365, 366)] == ["full", "full", "renewal", "renewal", "full"]


def test_a_renewal_is_due_in_its_window_also_while_an_outside_proof_is_missing(story: Any) -> None:
    story.proof(0, 100)
    story.check(0, "ppe")
    story.pair(0)
    story.pair(0, "bonding")
    found = record(story.rows, story.scheme, "ama", at(320))
    assert story.word(320, "bonding") == "lapsed"
    assert check_due(found, story.scheme, "bonding").form == "renewal"


def test_a_clearance_of_today_is_not_renewed_today_however_short_it_is() -> None:
    short = Scheme(skills=(Skill("ppe", Term(days=30)),), lapsing=60)
    check = CheckResult(id="c", person="ama", seen_on=at(0), recorded_at=TOLD, skill="ppe", passed=True)
    forms = [check_due(record([check], short, "ama", at(day)), short, "ppe").form for day in (0, 1)]
    assert forms == ["full", "renewal"]


def test_whoever_took_up_the_product_after_it_changed_is_not_asked_again() -> None:
    sheet = Sheet(
        id="s", person="ama", seen_on=at(100), recorded_at=TOLD, skill="beads", outcome="signed", material="grey-bond"
    )
    assert asked_again([sheet], ProductChange("grey-bond", at(100), at(130)), at(120)) == ()


def test_a_change_of_product_asks_those_again_who_signed_off_with_it(story: Any) -> None:
    change = ProductChange("grey-bond", at(100), at(130))
    sheet = Sheet(
        id="s", person="ama", seen_on=at(5), recorded_at=TOLD, skill="beads", outcome="signed", signed_by="bo",
        material="grey-bond",
    )  # fmt: skip
    other = replace(sheet, id="o", person="cleo", material="other")
    (asked,) = asked_again([sheet, other], change, at(120))
    assert (asked.person, asked.check_done, asked.sheet_done) == ("ama", False, False)
    assert not asked.overdue(at(130)) and asked.overdue(at(131))
    again = replace(sheet, id="s2", seen_on=at(110))
    check = CheckResult(
        id="c", person="ama", seen_on=at(109), recorded_at=TOLD, skill="beads", passed=True, form="difference"
    )
    (asked,) = asked_again([sheet, other, again, check], change, at(120))
    assert (asked.check_done, asked.sheet_done, asked.overdue(at(200))) == (True, True, False)
