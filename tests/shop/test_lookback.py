"""Looking back: a job is followed to the people, the standings, the questions, the sheets and the seals behind it."""

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, SheetInput, Unknown, Use

if TYPE_CHECKING:
    from conftest import Floor

BASIS = "Taught this for years before the shop began."
MEASURED = {"a": "23.2", "b": "10.0", "step": "0.1"}


def entitle(floor: "Floor") -> None:
    deeds.grant(floor.shop, floor.manager, floor.trainer, "pairing", now=floor.now, basis=BASIS, founding=True)


def sheet(floor: "Floor", person: int, **more: object) -> SheetInput:
    steps = frozenset({1, 2, 3})
    return SheetInput(person, "pairing", "Alder", steps, MEASURED, "scale 2, 0.1 g", **more)  # type: ignore[arg-type]


def clear(floor: "Floor", person: int) -> tuple[int, int]:
    """Clear somebody in both skills; the numbers of the pairing check and its sheet."""
    floor.pass_check(person, "ppe")
    form = floor.pass_check(person, "pairing")
    return form, deeds.sign_sheet(floor.shop, floor.trainer, sheet(floor, person), now=floor.later(hours=1))


def proof(floor: "Floor", person: int) -> None:
    deeds.see_proof(floor.shop, floor.trainer, person, "fit-test", None, now=floor.now)


def bonded(floor: "Floor", ticket: str, person: int, lot: str = "4471", **more: object) -> int:
    uses = [Use("Alder", lot, "4472", "30 to 115 mL", nozzles=2)]
    return deeds.record_job(
        floor.shop, floor.trainer, ticket=ticket, job="bond", person=person, uses=uses, now=floor.later(hours=1), **more
    )  # type: ignore[arg-type]


@pytest.fixture
def job(floor: "Floor") -> "Floor":
    """Ann and Ben are cleared by the same trainer; Ann bonds a panel on ticket T-118, Ben beside her."""
    entitle(floor)
    for person in (floor.ann, floor.ben):
        clear(floor, person)
        proof(floor, person)
    bonded(floor, "T-118", floor.ann, beside=floor.ben)
    return floor


def test_a_ticket_leads_to_everybody_who_had_a_hand_in_it(job: "Floor") -> None:
    view = deeds.lookback(job.shop, job.manager, now=job.later(days=240), ticket="T-118")
    assert [(hand.name, hand.part) for hand in view.hands] == [("Ann Bly", "did it"), ("Ben Cray", "beside")]
    assert [(use.material, use.lot_a, use.lot_b, use.used.text) for one in view.jobs for use in one.uses] == [
        ("Alder", "4471", "4472", "85 mL")
    ]
    skills = {one.skill: one for one in view.hands[0].skills}
    assert set(skills) == {"ppe", "pairing"}
    assert (skills["pairing"].then.word, skills["pairing"].now.word) == ("cleared", "cleared")
    assert not skills["pairing"].differs
    assert view.allowed[0].then.startswith("alone") and view.allowed[0].then == view.allowed[0].now


def test_it_shows_what_was_asked_seen_and_signed_and_by_what_right(job: "Floor") -> None:
    view = deeds.lookback(job.shop, job.manager, now=job.now, ticket="T-118")
    pairing = next(one for one in view.hands[0].skills if one.skill == "pairing")
    (check,) = pairing.checks
    assert check.passed and len(check.items) == 3 and check.marks == check.out_of
    for item in check.items:
        assert item.words and all(part.outcome == "right" and part.answer and part.right for part in item.parts)
    (signed,) = pairing.sheets
    assert (signed.by, signed.material) == ("Tess Orr", "Alder") and "founding" in signed.right
    assert ("a pair of shots (a)", "23.2", "g") in signed.measures and all(one.satisfied for one in signed.judged)
    assert pairing.founding == (f"Tess Orr: {BASIS}",)
    assert {one.row.kind for one in pairing.evidence if one.row.counts} >= {"result", "sheet"}
    assert all(len(one.row.seal) == 64 and one.known_then for one in pairing.evidence)
    assert [one.lesson for one in pairing.taught] == ["pairing/1-shares"]
    assert (view.position, view.seal) == (job.shop.records.head().position, job.shop.records.head().seal)


def test_answers_are_told_in_the_words_of_their_options(floor: "Floor") -> None:
    """Of every part that was no number: what was picked, ordered or paired, not its digits alone."""
    floor.pass_check(floor.ann, "ppe")
    view = deeds.lookback(floor.shop, floor.manager, now=floor.later(days=1), person=floor.ann, skill="ppe")
    (check,) = view.hands[0].skills[0].checks
    picked = [part for item in check.items for part in item.parts if part.answer != part.typed]
    assert picked and all(any(sign.isalpha() for sign in part.answer) for part in picked)
    assert all(part.answer.removeprefix("≈ ") == part.right.removeprefix("≈ ") for part in picked)


def test_the_shelf_row_is_the_one_in_force_that_day(job: "Floor") -> None:
    view = deeds.lookback(job.shop, job.manager, now=job.now, ticket="T-118")
    (material,) = view.materials
    assert (material.label.name, material.label.ratio) == ("Alder", "2:1 by volume")
    assert (
        material.pack
        == deeds.lookback(job.shop, job.manager, now=job.now, ticket="T-118").hands[0].skills[1].checks[0].pack
    )


def test_what_was_written_down_later_is_told_apart_from_what_was_known(floor: "Floor") -> None:
    """A paper sheet entered three days late: then learning, now known to have been cleared."""
    entitle(floor)
    floor.pass_check(floor.ann, "ppe")
    proof(floor, floor.ann)
    floor.pass_check(floor.ann, "pairing")
    day = floor.now.date()
    bonded(floor, "T-7", floor.ann)
    late = sheet(floor, floor.ann, seen_on=day, late=True, photo=b"\x89PNG\r\n\x1a\n" + b"\0" * 40)
    deeds.sign_sheet(floor.shop, floor.trainer, late, now=floor.later(days=3))
    view = deeds.lookback(floor.shop, floor.manager, now=floor.later(days=1), ticket="T-7")
    pairing = next(one for one in view.hands[0].skills if one.skill == "pairing")
    assert (pairing.then.word, pairing.now.word, pairing.differs) == ("check passed", "cleared", True)
    assert [one.known_then for one in pairing.evidence if one.row.kind == "sheet"] == [False]
    assert not view.allowed[0].then.startswith("alone") and view.allowed[0].now.startswith("alone")


def test_a_past_as_then_known_never_changes(job: "Floor") -> None:
    before = deeds.lookback(job.shop, job.manager, now=job.later(days=1), ticket="T-118")
    deeds.withdraw(job.shop, job.manager, job.ann, "pairing", "Bead dry.", now=job.now, seen_on=before.hands[0].day)
    after = deeds.lookback(job.shop, job.manager, now=job.later(days=1), ticket="T-118")
    assert [one.then for one in after.hands[0].skills] == [one.then for one in before.hands[0].skills]
    assert [one.now.word for one in after.hands[0].skills if one.skill == "pairing"] == ["withdrawn"]
    assert after.allowed[0].then == before.allowed[0].then and not after.allowed[0].now.startswith("alone")


def test_a_lesson_is_shown_as_it_was_in_force_whatever_it_says_today(job: "Floor") -> None:
    old = job.pack.modules
    taught = deeds.lookback(job.shop, job.manager, now=job.now, ticket="T-118").hands[0].skills
    changed = [
        replace(one, lessons=tuple(replace(lesson, title="Another one", body=()) for lesson in one.lessons))
        for one in old
    ]
    deeds.publish(job.shop, replace(job.pack, modules=tuple(changed)), job.manager, now=job.later(days=30))
    again = deeds.lookback(job.shop, job.manager, now=job.now, ticket="T-118").hands[0].skills
    assert [one.pack for one in again] == [one.pack for one in taught]
    assert all(lesson.changed for one in again for lesson in one.taught)
    day = dt.date(2026, 1, 5)
    then = deeds.lesson_then(job.shop, job.manager, day, "pairing", "1-shares", now=job.now)
    assert then.title == "Shares" and "small share" in then.body[0].html and then.pack == again[1].pack
    today = deeds.lesson_then(job.shop, job.manager, job.now.date(), "pairing", "1-shares", now=job.now)
    assert today.title == "Another one" and today.since == job.now.date()
    for viewer, module, on, wrong in (
        (job.ann, "pairing", day, Forbidden),
        (job.manager, "parking", day, Unknown),
        (job.manager, "pairing", dt.date(2026, 12, 1), Refusal),
    ):
        with pytest.raises(wrong):
            deeds.lesson_then(job.shop, viewer, on, module, "1-shares", now=job.now)


def test_who_else_hangs_on_the_same_signer_questions_and_lot(job: "Floor") -> None:
    zoe = deeds.add_person(
        job.shop, name="Zoe Ray", role="apprentice", site="north", secret="4711", by=job.manager, now=job.now
    )
    clear(job, zoe)
    bonded(job, "T-119", job.ben, lot="4471")
    bonded(job, "T-120", job.ben, lot="5000")
    view = deeds.lookback(job.shop, job.manager, now=job.now, ticket="T-118")
    kinds = {one.kind for one in view.others}
    assert kinds == {"signer", "question", "lot"}
    signer = next(one for one in view.others if one.kind == "signer")
    assert "Tess Orr" in signer.words and [one.name for one in signer.people] == ["Zoe Ray"]
    assert {other.ticket for one in view.others if one.words == "lot 4471" for other in one.jobs} == {"T-119"}
    assert {other.ticket for one in view.others if one.words == "lot 4472" for other in one.jobs} == {"T-119", "T-120"}


def test_by_lot_by_material_by_day_and_by_person(job: "Floor") -> None:
    bonded(job, "T-200", job.ben, lot="9")
    job.later(days=1)

    def found(**asked: object) -> set[str]:
        return {one.ticket for one in deeds.lookback(job.shop, job.manager, now=job.now, **asked).jobs}  # type: ignore[arg-type]

    day = dt.date(2026, 1, 5)
    assert found(lot="9") == {"T-200"} and found(lot="4472") == {"T-118", "T-200"}
    assert found(material="alder", day=day) == {"T-118", "T-200"}
    assert found(day=day, person=job.ann) == {"T-118"} and found(person=job.ben, lot="4471") == {"T-118"}


def test_many_tickets_are_listed_and_followed_only_when_asked_for(job: "Floor") -> None:
    for number in range(3):
        bonded(job, f"T-30{number}", job.ben)
    few = deeds.lookback(job.shop, job.manager, now=job.now, material="Alder", most=3)
    assert few.listed and len(few.jobs) == 4 and few.hands == few.allowed == few.others == ()
    whole = deeds.lookback(job.shop, job.manager, now=job.now, material="Alder", most=4)
    assert not whole.listed and len(whole.allowed) == 4 and whole.hands


def test_a_person_without_a_ticket_is_looked_back_on_for_the_day(job: "Floor") -> None:
    view = deeds.lookback(job.shop, job.manager, now=job.later(days=9), person=job.trainer, day=dt.date(2026, 1, 6))
    assert view.jobs == () and [(hand.part, hand.day.day) for hand in view.hands] == [("asked", 6)]
    one = deeds.lookback(job.shop, job.manager, now=job.now, person=job.ann, day=dt.date(2026, 1, 8), skill="ppe")
    assert [each.skill for each in one.hands[0].skills] == ["ppe"]


@pytest.mark.parametrize(
    ("asked", "kind", "word"),
    [
        ({}, Refusal, "Nothing was asked"),
        ({"ticket": "T-404"}, Unknown, "no ticket 'T-404'"),
        ({"lot": "0000"}, Unknown, "no lot '0000'"),
        ({"material": "Alder", "day": dt.date(2025, 5, 5)}, Unknown, "No job on file"),
        ({"day": dt.date(2026, 12, 24)}, Refusal, "still to come"),
        ({"person": 99}, Unknown, "no person"),
        ({"ticket": "T-118", "skill": "parking"}, Unknown, "no skill"),
    ],
)
def test_what_is_not_there_is_said_with_what_to_do(
    job: "Floor", asked: dict[str, object], kind: type[Refusal], word: str
) -> None:
    with pytest.raises(kind, match=word) as caught:
        deeds.lookback(job.shop, job.manager, now=job.later(hours=1), **asked)  # type: ignore[arg-type]
    assert caught.value.mend


def test_at_the_bench_nobody_looks_back_not_even_on_themselves(job: "Floor") -> None:
    for asked in ({"ticket": "T-118"}, {"person": job.trainer}):
        with pytest.raises(Forbidden):
            deeds.lookback(job.shop, job.ann, now=job.now, **asked)  # type: ignore[arg-type]


def test_what_came_after_the_day_is_no_evidence_of_it(job: "Floor") -> None:
    asked = deeds.practise(job.shop, job.ann, "pairing", now=job.now)
    deeds.answer_practice(job.shop, job.ann, asked.draw, {"answer": job.right(asked)}, now=job.now)
    before = deeds.lookback(job.shop, job.manager, now=job.later(days=3), ticket="T-118")
    assert any("practice begun; 1 answer up to" in one.row.words for one in before.hands[0].skills[1].evidence)
    more = deeds.practise(job.shop, job.ann, "pairing", now=job.now)
    deeds.answer_practice(job.shop, job.ann, more.draw, {"answer": job.right(more)}, now=job.now)
    deeds.sign_sheet(job.shop, job.trainer, sheet(job, job.ann), now=job.later(days=1))
    proof(job, job.ann)
    after = deeds.lookback(job.shop, job.manager, now=job.later(days=1), ticket="T-118")
    assert [one.evidence for one in after.hands[0].skills] == [one.evidence for one in before.hands[0].skills]


def test_somebody_who_has_left_is_a_number_and_the_evidence_stands(job: "Floor") -> None:
    deeds.leave(job.shop, job.ann, by=job.manager, now=job.later(days=2))
    view = deeds.lookback(job.shop, job.manager, now=job.later(days=2), ticket="T-118")
    assert view.hands[0].name == f"Person {job.ann}" and view.hands[0].left is not None
    assert [one.then.word for one in view.hands[0].skills] == ["cleared", "cleared"]
