"""The settings as standing reads them."""

import datetime as dt
from fractions import Fraction

import pytest

from quizkit.pack.scheme import Check, ModuleScheme, Period, Scheme, Site
from quizkit.shop.terms import standing_scheme, stretch, term, terms_from, terms_of, terms_text
from quizkit.standing.dates import Term

CHECK = Check(Fraction(4, 5), Period(24, "hours"), Period(2, "years"), (("shares", 3), ("pairs", 2)), (("shares", 2),))
MODULE = ModuleScheme("Ratio pairing", "ratio-pairing", CHECK, needs=(), practical=True)
SHOP = Scheme("Shop", valid=(("ppe", Period(12, "months")),), sites=(Site("main", "Main", "UTC", (("ppe", 2),)),))


@pytest.mark.parametrize(
    ("period", "expected"),
    [
        (Period(25, "hours"), Term(days=2)),
        (Period(3, "days"), Term(days=3)),
        (Period(2, "weeks"), Term(days=14)),
        (Period(5, "months"), Term(months=5)),
        (Period(10, "years"), Term(months=120)),
    ],
)
def test_a_period_is_months_and_days(period: Period, expected: Term) -> None:
    assert term(period) == expected


def test_a_wait_is_hours_on_the_clock() -> None:
    assert stretch(Period(24, "hours")) == stretch(Period(1, "days")) == dt.timedelta(days=1)
    assert stretch(Period(2, "weeks")) == dt.timedelta(days=14)


def test_the_shop_overrides_how_long_a_skill_holds() -> None:
    ppe = ModuleScheme("PPE", "ppe", CHECK)
    scheme = standing_scheme(SHOP, [ppe, MODULE])
    assert scheme.skill("ppe").valid == Term(months=12)
    assert scheme.skill("ratio-pairing").valid == Term(months=24)
    assert scheme.wanted("main", "ppe") == 2
    assert scheme.skill("ratio-pairing").renewal_minutes == 4


def test_terms_come_back_out_of_a_row_as_they_went_in() -> None:
    terms = terms_of(SHOP, MODULE)
    assert terms_from(terms_text(terms)) == terms
