"""Several reasons of one kind are said at once; each other reason stands as it is, in its place."""

from quizkit.standing.reasons import Reason, joined

MISSING, DATED = "{name} is not cleared", "{name} is not in date"


def _reason(text: str, name: str) -> Reason:
    return Reason(text, (("name", name),))


def test_reasons_that_differ_in_a_name_alone_are_said_once() -> None:
    one = Reason("{name}: no sheet with {material}", (("name", "Billing"), ("material", "filler")))
    found = joined([_reason(MISSING, "Storage"), one, _reason(DATED, "Fit test"), _reason(MISSING, "Balancing"), one])
    told = "Billing: no sheet with filler"
    assert found == ("not cleared: Storage, Balancing", told, "Fit test is not in date", told)


def test_what_several_things_keep_from_counting_is_one_phrase() -> None:
    lapsed = [_reason("because of {name}", name) for name in ("PPE", "Fit test", "Medical clearance")]
    assert joined(lapsed[:1]) == ("because of PPE",)
    assert joined(lapsed[:2]) == ("because of PPE, Fit test",)
    assert joined(lapsed) == ("because of PPE, Fit test, Medical clearance",)


def test_one_reason_keeps_its_sentence_and_none_says_nothing() -> None:
    assert joined([_reason(MISSING, "Storage")]) == ("Storage is not cleared",)
    assert joined([]) == ()
