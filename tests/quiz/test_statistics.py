"""The figures of a check against published tables and reference libraries.

LSAT sections 6 and 7: response patterns of Bock and Lieberman, Psychometrika 35 (1970) (read). Ten by ten: a
university's published KR-20 example (read); its figures past KR-20 are computed. No divisor but n throughout.
"""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from quizkit.quiz import statistics as figures
from quizkit.quiz.statistics import StatisticsError

LSAT6 = (
    "3 6 2 11 1 1 3 4 1 8 0 16 0 3 2 15 10 29 14 81 3 28 15 80 16 56 21 173 11 61 28 298",
    [0.924, 0.709, 0.553, 0.763, 0.870],
    0.2949972,
    [0.2754, 0.2376, 0.2168, 0.2459, 0.2663],
)
LSAT7 = (
    "12 19 1 7 3 19 3 17 10 5 3 7 7 23 8 28 7 39 11 34 14 51 15 90 6 25 7 35 18 136 32 308",
    [0.828, 0.658, 0.772, 0.606, 0.843],
    0.4534087,
    None,
)
TEN_BY_TEN = [
    "1111110110",
    "1011011101",
    "1111011001",
    "0010001000",
    "0000010010",
    "1110111111",
    "1101110111",
    "1111111101",
    "0101111101",
    "1101101110",
]


def forms_of(patterns: list[str]) -> list[dict[str, float]]:
    return [{f"q{place}": float(mark) for place, mark in enumerate(pattern, 1)} for pattern in patterns]


def lsat(counts: str) -> list[dict[str, float]]:
    patterns = ("".join(bits) for bits in product("01", repeat=5))
    return forms_of([p for p, count in zip(patterns, map(int, counts.split()), strict=True) for _ in range(count)])


@pytest.mark.parametrize(("counts", "shares", "alpha", "without"), [LSAT6, LSAT7])
def test_shares_and_kr20_of_the_lsat_sections_are_the_published_ones(
    counts: str, shares: list[float], alpha: float, without: list[float] | None
) -> None:
    forms = lsat(counts)
    assert len(forms) == 1000
    assert [figures.mean([form[f"q{n}"] for form in forms]) for n in range(1, 6)] == pytest.approx(shares)
    assert figures.kr20(forms) == pytest.approx(alpha, abs=5e-8)
    if without is not None:
        left = [
            [{name: marks for name, marks in form.items() if name != f"q{n}"} for form in forms] for n in range(1, 6)
        ]
        assert [figures.kr20(rest) for rest in left] == pytest.approx(without, abs=5e-5)


def test_item_rest_and_kr21_of_lsat_6_are_the_published_ones() -> None:
    forms = lsat(LSAT6[0])
    rest = [figures.item_rest(forms, f"q{n}") for n in range(1, 6)]
    assert rest == pytest.approx([0.1128, 0.1532, 0.1728, 0.1444, 0.1216], abs=5e-5)
    assert figures.kr21(figures.totals(forms), 5) == pytest.approx(0.196441, abs=5e-7)


def test_the_ten_by_ten_example_gives_its_figures_and_shows_its_two_bad_questions() -> None:
    forms = forms_of(TEN_BY_TEN)
    marks = figures.totals(forms)
    assert figures.variance(marks) == pytest.approx(5.84)
    reliability = figures.kr20(forms)
    assert reliability == pytest.approx(0.696347, abs=5e-7)
    assert figures.kr21(marks, 10) == pytest.approx(0.684170, abs=5e-7)
    assert figures.standard_error(marks, reliability) == pytest.approx(1.33167, abs=5e-6)
    rest = [figures.item_rest(forms, f"q{n}") for n in range(1, 11)]
    published = [0.7059, 0.7059, 0.0, 0.4736, 0.5839, 0.2861, -0.0274, 0.7059, -0.1236, 0.4759]
    assert rest == pytest.approx(published, abs=5e-5)


@pytest.mark.parametrize(
    ("forms", "cut", "agreement", "kappa"),
    [(forms_of(TEN_BY_TEN), 7, 0.758446, 0.510307), (lsat(LSAT6[0]), 4, 0.614934, 0.141725)],
    ids=["ten by ten", "lsat 6"],
)
def test_decision_consistency_is_huynh_s(
    forms: list[dict[str, float]], cut: int, agreement: float, kappa: float
) -> None:
    """Computed a second time with other tools; Huynh's own tables were not at hand."""
    found = figures.decision_consistency(figures.totals(forms), len(forms[0]), cut)
    assert found is not None
    assert (found.agreement, found.kappa) == pytest.approx((agreement, kappa), abs=5e-7)


@pytest.mark.parametrize("cut", range(0, 12))
def test_decision_consistency_agrees_with_the_beta_binomial_of_scipy_at_every_cut(cut: int) -> None:
    marks = figures.totals(forms_of(TEN_BY_TEN))
    reliability = figures.kr21(marks, 10)
    assert reliability is not None
    a = (1 / reliability - 1) * figures.mean(marks)
    b = 10 / reliability - 10 - a
    ability, weight = np.polynomial.legendre.leggauss(200)
    ability, weight = (ability + 1) / 2, weight / 2
    fails = stats.binom.cdf(cut - 1, 10, ability)
    density = weight * stats.beta.pdf(ability, a, b)
    found = figures.decision_consistency(marks, 10, cut)
    assert found is not None
    assert found.agreement == pytest.approx(float(np.sum(density * (fails**2 + (1 - fails) ** 2))), abs=1e-4)


# NIST/SEMATECH e-Handbook 7.2.4.1 (formula read; values computed).
WILSON = [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0, 0.1611), (1, 29, 0.0061, 0.1718)]


@pytest.mark.parametrize(("right", "asked", "low", "high"), [*WILSON, (8, 10, 0.4902, 0.9433)])
def test_the_interval_of_a_share_is_wilson_s(right: int, asked: int, low: float, high: float) -> None:
    assert figures.wilson(right, asked) == pytest.approx((low, high), abs=5e-5)


@given(st.integers(1, 2000).flatmap(lambda asked: st.tuples(st.integers(0, asked), st.just(asked))))
def test_the_interval_agrees_with_scipy(share: tuple[int, int]) -> None:
    right, asked = share
    found = figures.wilson(right, asked)
    other = stats.binomtest(right, asked).proportion_ci(method="wilson")
    assert found == pytest.approx((other.low, other.high), abs=1e-9)


marks_table = st.integers(2, 6).flatmap(
    lambda width: st.lists(st.lists(st.integers(0, 1), min_size=width, max_size=width), min_size=3, max_size=25)
)


@given(marks_table)
def test_kr20_agrees_with_alpha_from_the_covariances_and_item_rest_with_scipy(table: list[list[int]]) -> None:
    forms = forms_of(["".join(map(str, row)) for row in table])
    marks = np.array(table, dtype=float)
    found = figures.kr20(forms)
    if marks.sum(axis=1).var() < 1e-9:
        assert found is None
    else:
        shared = np.cov(marks.T)
        alpha = len(shared) / (len(shared) - 1) * (1 - np.trace(shared) / shared.sum())
        assert found == pytest.approx(float(alpha), abs=1e-9)
    for place in range(marks.shape[1]):
        rest = marks.sum(axis=1) - marks[:, place]
        own = figures.item_rest(forms, f"q{place + 1}")
        if marks[:, place].std() < 1e-9 or rest.std() < 1e-9:
            assert own is None
        else:
            assert own == pytest.approx(float(stats.pearsonr(marks[:, place], rest).statistic), abs=1e-9)


def test_forms_that_ask_different_questions_are_taken_by_question() -> None:
    """A question's figures come from the forms that asked it, and one that all forms leave out changes nothing."""
    forms = [{"a": 1.0, "b": 0.0}, {"a": 0.0, "c": 1.0}, {"b": 1.0, "c": 1.0}]
    assert figures.item_rest(forms, "a") == pytest.approx(-1.0)
    variances = [(0.25 + 0.25), (0.25 + 0.0), (0.25 + 0.0)]
    expected = 2 / 1 * (1 - (sum(variances) / 3) / figures.variance([1.0, 1.0, 2.0]))
    assert figures.kr20(forms) == pytest.approx(expected)


@pytest.mark.parametrize("forms", [[], [{"a": 1.0}], [{"a": 1.0}, {"a": 0.0}], [{"a": 1.0, "b": 0.0}] * 3])
def test_what_the_answers_cannot_give_is_none(forms: list[dict[str, float]]) -> None:
    assert figures.kr20(forms) is None
    assert figures.kr21(figures.totals(forms), 1) is None
    assert figures.decision_consistency(figures.totals(forms), 2, 1) is None


def test_a_check_whose_kr21_is_not_above_0_has_no_decision_consistency() -> None:
    assert figures.decision_consistency([5.0, 5.0, 5.0, 6.0], 10, 7) is None


def test_the_judges_cut_is_the_mean_of_their_sums_with_its_standard_error() -> None:
    """Computed: sums 3.0, 2.8 and 3.2; their spread 0.2 over the root of 3."""
    ratings = {"J1": (0.8, 0.6, 0.7, 0.9), "J2": (0.7, 0.5, 0.8, 0.8), "J3": (0.9, 0.7, 0.6, 1.0)}
    cut = figures.angoff(ratings)
    assert (cut.marks, cut.error) == pytest.approx((3.0, 0.11547), abs=5e-6)
    assert cut.error == pytest.approx(stats.sem([own for _judge, own in cut.judges]))
    assert [judge for judge, _own in cut.judges] == ["J1", "J2", "J3"]


def test_one_judge_gives_a_cut_without_a_spread() -> None:
    assert figures.angoff({"J1": (0.5, 1.0)}).error == 0


@pytest.mark.parametrize(
    "ratings", [{}, {"J1": ()}, {"J1": (0.5,), "J2": (0.5, 0.5)}, {"J1": (1.2,)}, {"J1": (math.nan,)}]
)
def test_ratings_that_give_no_cut_are_refused(ratings: dict[str, tuple[float, ...]]) -> None:
    with pytest.raises(StatisticsError):
        figures.angoff(ratings)


@pytest.mark.parametrize(("right", "asked"), [(0, 0), (3, 2), (-1, 5)])
def test_a_share_that_is_none_is_refused(right: int, asked: int) -> None:
    with pytest.raises(StatisticsError, match="no share"):
        figures.wilson(right, asked)
