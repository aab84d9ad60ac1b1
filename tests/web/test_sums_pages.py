"""Bench sums: open to whoever stands there, questions first, refusals in words, nothing that can break them."""

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quizkit.trade import SUMS

if TYPE_CHECKING:
    from conftest import Bench


def test_all_sums_are_listed_without_signing_in(bench: "Bench") -> None:
    page = bench.browser().get("/sums").text
    assert [name for name in SUMS if f'href="/sums/{name}"' not in page] == []


@pytest.mark.parametrize("name", SUMS)
def test_each_sum_has_its_form_its_formula_and_its_source(bench: "Bench", name: str) -> None:
    answer = bench.browser().get(f"/sums/{name}")
    assert answer.status_code == 200
    assert answer.text.count('name="v.') >= len(SUMS[name].takes) and "Source:" in answer.text


def test_a_sum_is_worked_with_its_steps(bench: "Bench") -> None:
    page = bench.browser().get("/sums/hardener_for?v.0=120+mL&v.1=10:1+by+volume").text
    assert '<p class="big num">12 mL</p>' in page and "120 mL × 1 ÷ 10" in page


def test_a_result_is_told_in_the_unit_asked_for(bench: "Bench") -> None:
    page = bench.browser().get("/sums/bead_volume?v.0=50+mm2&v.1=2+m&into=fl+oz").text
    assert "fl oz</p>" in page


def test_what_is_not_read_is_told_at_its_box_and_the_text_stays(bench: "Bench") -> None:
    answer = bench.browser().get("/sums/hardener_for?v.0=120+oz&v.1=10:1")
    assert answer.status_code == 422
    assert 'value="120 oz"' in answer.text and 'href="#v.0"' in answer.text and 'href="#v.1"' in answer.text


def test_questions_come_before_a_number(bench: "Bench") -> None:
    browser, values = bench.browser(), "v.0=500+ppm&v.1=50+ppm"
    unasked = browser.get(f"/sums/factor_needed?{values}").text
    assert "First answer" in unasked and 'class="big num"' not in unasked
    yes = browser.get(f"/sums/factor_needed?{values}&ask.1=yes").text
    assert "No number." in yes and 'class="big num"' not in yes
    assert 'class="big num"' in browser.get(f"/sums/factor_needed?{values}&ask.1=no").text


def test_a_repeated_group_grows_and_blank_lines_are_left_out(bench: "Bench") -> None:
    page = bench.browser().get("/sums/twa?v.0=100+ppm&v.1=4+h&v.2=&v.3=&rows=4").text
    assert '<p class="big num">50 ppm</p>' in page and page.count('name="v.') == 8


def test_no_sum_of_that_name(bench: "Bench") -> None:
    assert bench.browser().get("/sums/no_such_sum").status_code == 404


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    name=st.sampled_from(sorted(SUMS)),
    texts=st.lists(st.text(max_size=20) | st.sampled_from(["1", "20 ppm", "-3 mL", "0", "1e30 m", "9**9"]), max_size=6),
    rows=st.text(max_size=4),
    into=st.text(max_size=8),
)
def test_nothing_that_is_typed_breaks_a_sum(bench: "Bench", name: str, texts: list[str], rows: str, into: str) -> None:
    query: dict[str, str] = {f"v.{at}": text for at, text in enumerate(texts)}
    answer = bench.browser().client.get(f"/sums/{name}", query_string=query | {"rows": rows, "into": into})
    assert answer.status_code in (200, 422)
