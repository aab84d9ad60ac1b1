"""Outside proofs: yes and until, a mask model where the settings name it, and never a medical detail."""

import datetime as dt
from dataclasses import replace

import pytest

from quizkit import shop as deeds
from quizkit.pack.scheme import OutsideProof
from quizkit.shop import Forbidden, Refusal, Unknown


@pytest.fixture
def clinic(floor):
    """A shop in which pairing asks for a medical clearance, of which nothing but yes and until is kept."""
    medical = OutsideProof("medical", "Medical clearance", None, "")
    modules = tuple(
        replace(one, scheme=replace(one.scheme, proofs=("medical",))) if one.id == "pairing" else one
        for one in floor.pack.modules
    )
    scheme = replace(floor.pack.scheme, proofs=(*floor.pack.scheme.proofs, medical))
    floor.pack = replace(floor.pack, modules=modules, scheme=scheme)
    deeds.publish(floor.shop, floor.pack, floor.manager, now=floor.later(minutes=1))
    return floor


def see(floor, kind: str = "medical", until: dt.date | None = dt.date(2026, 3, 31), **more: object) -> int:
    return deeds.see_proof(floor.shop, floor.trainer, floor.ann, kind, until, now=floor.later(minutes=1), **more)


def test_no_medical_detail_is_ever_kept(clinic) -> None:
    with pytest.raises(Refusal, match="nothing but yes and until"):
        see(clinic, detail="asthma since 2019")
    assert clinic.shop.count("outside_proof") == 0
    row = clinic.shop.get("outside_proof", see(clinic))
    assert (row["until"], row["detail"], row["paper_seen_by"]) == (dt.date(2026, 3, 31), None, clinic.trainer)


def test_without_a_term_in_the_settings_the_last_day_is_copied_from_the_paper(clinic) -> None:
    with pytest.raises(Refusal, match="last day is missing"):
        see(clinic, until=None)


def test_a_proof_clears_with_the_rest_and_its_lapse_takes_the_clearance_along(clinic) -> None:
    clinic.clear(clinic.ann)
    assert clinic.word(clinic.ann) == "check passed"
    see(clinic)
    assert clinic.word(clinic.ann) == "cleared"
    clinic.now = dt.datetime(2026, 3, 31, 20, tzinfo=dt.UTC)
    assert clinic.word(clinic.ann) == "cleared", "the last day is inclusive"
    clinic.now = dt.datetime(2026, 4, 1, 16, tzinfo=dt.UTC)
    now = clinic.standing(clinic.ann)
    assert (now.word, now.because) == ("lapsed", ("because of Medical clearance",))
    see(clinic, until=dt.date(2027, 3, 31))
    assert clinic.word(clinic.ann) == "cleared", "the own evidence stayed and counts again"


def test_what_two_things_keep_from_counting_is_said_in_one_phrase(clinic) -> None:
    clinic.clear(clinic.ann)
    deeds.withdraw(clinic.shop, clinic.trainer, clinic.ann, "ppe", "No gloves.", now=clinic.later(minutes=1))
    now, both = clinic.standing(clinic.ann), "because of Protection, Medical clearance"
    assert (now.word, now.because, now.note) == ("check passed", (both,), both)


def test_a_paper_is_seen_by_a_trainer_for_somebody_else_and_known_by_its_kind(clinic) -> None:
    with pytest.raises(Forbidden):
        deeds.see_proof(clinic.shop, clinic.ben, clinic.ann, "medical", dt.date(2027, 1, 1), now=clinic.now)
    with pytest.raises(Forbidden, match="for themselves"):
        deeds.see_proof(clinic.shop, clinic.trainer, clinic.trainer, "medical", dt.date(2027, 1, 1), now=clinic.now)
    with pytest.raises(Unknown, match="no outside proof 'blood'"):
        see(clinic, kind="blood")
    with pytest.raises(Refusal, match="lies before"):
        see(clinic, until=dt.date(2025, 1, 1))
