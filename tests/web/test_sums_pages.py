"""Bench sums: open to whoever stands there, questions first, refusals in words, nothing that can break them."""

import re
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quizkit import shop as deeds
from quizkit.trade import SUMS
from quizkit.trade.typed import read
from quizkit.web.boxes import hint, label, shelf_field
from quizkit.web.sums import in_words

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


@pytest.mark.parametrize(
    ("address", "box", "said"),
    [
        ("twa?v.0=much&v.1=4+h", "v.0", "Wanted: 20 ppm or 85 mg/m³."),
        ("twa?v.0=20+pp&v.1=4+h", "v.0", "Did you mean &#39;ppm&#39;?"),
        ("hardener_for?v.0=120&v.1=10:1+by+volume", "v.0", "not a plain number."),
        (
            "hardener_for?v.0=120+mL&v.1=10:1",
            "v.1",
            "The data sheet says which: write &#39;10:1 by volume&#39; or &#39;10:1 by weight&#39;.",
        ),
        ("weight_ratio?v.0=10:1&v.1=1+g/mL&v.2=1+g/mL", "v.0", "If it is by volume, write &#39;10:1 by volume&#39;."),
        ("twa?v.0=20+ppm&v.1=long", "v.1", "Wanted: 4 h or 30 min."),
        ("hardener_for?v.0=120+mL&v.1=10:1+by+volume&into=h", "into", "is no unit of that."),
    ],
)
def test_what_keeps_a_sum_from_being_worked_out_is_said_with_a_mend_at_its_box(
    bench: "Bench", address: str, box: str, said: str
) -> None:
    answer = bench.browser().get(f"/sums/{address}")
    assert answer.status_code == 422 and address.partition("?")[0] not in answer.text.partition("<form")[0]
    assert [text for text in re.findall(rf'<a href="#{box}">(.*?)</a>', answer.text) if said in text]
    assert said in answer.text.partition(f'id="{box}.why"')[2].partition("</p>")[0]


def test_a_formula_is_read_in_words(bench: "Bench") -> None:
    assert in_words("min(a_left ÷ ratio.a, b_left ÷ ratio.b)") == "min(A left ÷ A part, B left ÷ B part)"
    assert not [one.name for one in SUMS.values() if re.search(r"[a-z]_|[a-z]\.[a-z]", in_words(one.formula))]
    assert "base × B part ÷ A part" in bench.browser().get("/sums/hardener_for").text


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


def test_the_label_of_a_material_fills_the_blank_boxes(bench: "Bench") -> None:
    browser = bench.browser()
    page = browser.get("/sums/hardener_for?v.0=120+mL&v.1=&shelf=Keel+adhesive").text
    assert '<p class="big num">60 mL</p>' in page and 'value="2:1 by volume"' in page
    own = browser.get("/sums/hardener_for?v.0=120+mL&v.1=10:1+by+volume&shelf=Keel+adhesive").text
    assert '<p class="big num">12 mL</p>' in own, "what somebody typed stays"
    part = browser.get("/sums/off_ratio?v.0=&v.1=&v.2=&shelf=Keel+adhesive")
    assert part.status_code == 200 and "Not read yet" not in part.text, "the other boxes wait for their values"


def test_all_that_a_label_fills_is_read_by_the_sum(bench: "Bench") -> None:
    with bench.shop() as shop:
        shelf = deeds.bench_shelf(shop, now=bench.now)
    assert len(shelf) > 5
    for one in SUMS.values():
        for name, kind in one.takes:
            for _label, fields in shelf:
                text = fields.get(shelf_field(one.name, name))
                if text is not None and not (kind == "ratio by volume" and "by weight" in text):
                    assert read(kind, text).value is not None, (one.name, name, text)


def test_a_long_title_has_a_head(bench: "Bench") -> None:
    page = bench.browser().get("/sums/twa").text
    assert "<h1>The 8-hour time-weighted average of levels, each over its time</h1>" in page
    assert "<p>Hours without exposure count as zero.</p>" in page


def test_every_box_is_named_in_words() -> None:
    named = [label(one.name, name) for one in SUMS.values() for name, _word in one.takes]
    assert [words for words in named if "_" in words or not words[0].isupper()] == []


def test_every_time_and_amount_that_a_box_names_is_read() -> None:
    for one in SUMS.values():
        for name, kind in one.takes:
            if kind in ("time", "amount of ratio"):
                for text in re.findall(r"\d[\d/ ]* [a-zA-Z]+", hint(one.name, name, kind)):
                    assert read(kind, text).value is not None, (one.name, name, text)
    assert hint("twa", "time", "time") != hint("bead_time", "time", "time") == "6 min or 45 s"


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
