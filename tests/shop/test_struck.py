"""A struck row counts no more, and neither does what was signed on it."""

import pytest

from quizkit import shop as deeds
from quizkit.shop import Refusal

PHRASE = "nine grey anvils hum"


def signed(floor) -> tuple[int, int]:
    """Ann's sheet, observed and then signed: the numbers of both rows."""
    floor.found(floor.trainer)
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    sheet = deeds.observe_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.later(minutes=1))
    (name,) = deeds.sign_observed(floor.shop, floor.trainer, [sheet], PHRASE, now=floor.later(minutes=1))
    assert floor.word(floor.ann) == "cleared"
    return sheet, name


@pytest.mark.parametrize("which", ["sheet", "signature"])
def test_an_observed_sheet_that_was_struck_takes_its_signature_along(floor, which: str) -> None:
    sheet, name = signed(floor)
    row = f"sheet:{sheet}" if which == "sheet" else f"signature:{name}"
    deeds.strike(floor.shop, floor.manager, row, "it was another person", now=floor.later(minutes=1))
    assert floor.word(floor.ann) == "check passed"
    told = deeds.statements(floor.shop, now=floor.now)
    assert [one.voids for one in told if one.verb == "voided"] == [f"signature:{name}"]


def test_a_sheet_whose_signature_was_struck_waits_for_another_one(floor) -> None:
    """The wrong trainer signed it; what was observed still stands."""
    sheet, name = signed(floor)
    deeds.strike(floor.shop, floor.manager, f"signature:{name}", "not the one on duty", now=floor.later(minutes=1))
    assert [one.sheet for one in deeds.waiting(floor.shop, floor.trainer, now=floor.now).to_sign] == [sheet]
    deeds.sign_observed(floor.shop, floor.trainer, [sheet], PHRASE, now=floor.later(minutes=1))
    assert floor.word(floor.ann) == "cleared"
    with pytest.raises(Refusal, match="signed already"):
        deeds.sign_observed(floor.shop, floor.trainer, [sheet], PHRASE, now=floor.later(minutes=1))


def test_a_struck_sheet_is_signed_no_more(floor) -> None:
    floor.found(floor.trainer)
    sheet = deeds.observe_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.later(minutes=1))
    deeds.strike(floor.shop, floor.manager, f"sheet:{sheet}", "it was another person", now=floor.later(minutes=1))
    assert deeds.waiting(floor.shop, floor.trainer, now=floor.now).to_sign == ()
    with pytest.raises(Refusal, match="not to be signed"):
        deeds.sign_observed(floor.shop, floor.trainer, [sheet], PHRASE, now=floor.later(minutes=1))


def test_a_struck_row_stays_readable_with_who_struck_it_and_why(floor) -> None:
    sheet = floor.clear(floor.ann)
    deeds.strike(floor.shop, floor.manager, f"sheet:{sheet}", "it was another person", now=floor.later(minutes=1))
    record = deeds.sheet_record(floor.shop, floor.manager, sheet, now=floor.now)
    assert record.struck == "it was another person"
    chain = deeds.cell(floor.shop, floor.manager, floor.ann, "pairing", now=floor.now).chain
    (row,) = [one for one in chain if one.id == f"sheet:{sheet}"]
    assert (row.struck, row.counts) == ("it was another person", False)
