"""A certificate stands no longer than the clearances that it states, whatever its printed day says."""

import datetime as dt
from dataclasses import replace

import pytest

from quizkit import shop as deeds


@pytest.fixture
def holder(floor):
    """Ann holds both skills and a certificate for them."""
    floor.clear(floor.ann)
    floor.number = deeds.issue_certificate(floor.shop, floor.manager, floor.ann, "start", now=floor.later(days=1))
    return floor


def shown(holder) -> deeds.CertificateView:
    return deeds.certificate(holder.shop, holder.manager, holder.number, now=holder.now)


def test_it_stands_while_all_its_parts_do(holder) -> None:
    assert (shown(holder).state, shown(holder).reason) == ("valid", "")
    holder.now = dt.datetime(2027, 1, 5, 20, tzinfo=dt.UTC)
    assert shown(holder).state == "valid", "the last day is inclusive"
    holder.now = dt.datetime(2027, 1, 6, 16, tzinfo=dt.UTC)
    assert shown(holder).state == "expired"


def test_a_withdrawn_clearance_takes_it_along_until_it_is_restored(holder) -> None:
    row = deeds.withdraw(holder.shop, holder.trainer, holder.ann, "pairing", "forced a nozzle", now=holder.now)
    told = shown(holder)
    assert (told.state, told.withdrawn) == ("withdrawn", holder.now.date())
    assert told.reason == "Pairing: withdrawn: forced a nozzle"
    seal = holder.shop.get("certificate", holder.number)["head"]
    assert deeds.check_certificate(holder.shop, holder.number, seal, now=holder.now).state == "withdrawn"
    (held,) = deeds.certificate_state(holder.shop, holder.manager, holder.ann, now=holder.now)
    assert held.certificate == 0
    told = {"now": holder.later(days=1), "restores": True}
    deeds.end_withdrawal(holder.shop, holder.manager, row, "it was not her nozzle", **told)
    assert shown(holder).state == "valid"


def test_a_struck_sheet_ends_it_before_its_day(holder) -> None:
    sheet = holder.shop.row("sheet", person=holder.ann)["id"]
    deeds.strike(holder.shop, holder.manager, f"sheet:{sheet}", "the wrong person", now=holder.later(days=1))
    assert shown(holder).state == "expired"
    assert shown(holder).reason.startswith("Pairing: ")


def test_what_the_shop_asks_for_later_takes_none_back(holder) -> None:
    """It was issued by what was asked then."""
    modules = tuple(
        replace(one, scheme=replace(one.scheme, proofs=("fit-test",))) if one.id == "pairing" else one
        for one in holder.pack.modules
    )
    deeds.publish(holder.shop, replace(holder.pack, modules=modules), holder.manager, now=holder.later(days=1))
    assert holder.word(holder.ann) == "check passed"
    assert shown(holder).state == "valid"
