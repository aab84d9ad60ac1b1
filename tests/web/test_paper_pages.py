"""Paper: ten checks with ten marking sheets to print, one typed in, and a sheet entered late with its photo."""

import io
import re
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Bench, Browser

PHOTO = b"\x89PNG\r\n\x1a\n" + b"\0" * 40


def drawn(bench: "Bench", browser: "Browser", skill: str = "ppe", copies: str = "1") -> list[int]:
    """Draw blank checks on the page; their numbers."""
    browser.get("/paper")
    answer = browser.post("/paper", skill=skill, copies=copies)
    assert answer.status_code == 303
    return [int(number) for number in re.findall(r"form=(\d+)", answer.headers["Location"])]


def paper(bench: "Bench", number: int) -> deeds.PaperForm:
    with bench.shop() as shop:
        return deeds.paper(shop, bench.people.trainer, number)


def fields(view: deeds.PaperForm) -> dict[str, object]:
    """What a browser sends for a paper on which everything is right, by its key."""
    sent: dict[str, object] = {}
    for item, (question, key) in enumerate(zip(view.items, view.key, strict=True), 1):
        for part, (name, right) in zip(question.parts, key, strict=True):
            at = f"part.{item}.{name}"
            if part.kind == "choice":
                sent[at] = right.split(", ")
            elif part.kind == "match":
                sent |= {f"{at}.{pair[:-1]}": pair[-1] for pair in right.split()}
            else:
                sent[at] = right.removeprefix("≈ ")
    return sent


def test_ten_checks_print_without_a_key_and_their_marking_sheets_with_one(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    numbers = drawn(bench, browser, copies="10")
    assert len(numbers) == 10
    query = "&".join(f"form={number}" for number in numbers)
    assert "10 checks are ready to print" in browser.get(f"/paper?{query}").text
    checks, keys = browser.get(f"/paper/checks?{query}").text, browser.get(f"/paper/keys?{query}").text
    assert checks.count('<article class="copy">') == keys.count('<article class="copy">') == 10
    assert "shows the right answers" in keys
    assert "shows the right answers" not in checks and '<th scope="col">Right</th>' not in checks
    assert all(f"check {number}" in checks and f"check {number}" in keys for number in numbers)


def test_a_check_typed_in_from_its_paper_is_marked_like_any_other(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    (number,) = drawn(bench, browser)
    assert f"/paper/{number}" in browser.get("/paper").text
    page = browser.get(f"/paper/{number}").text
    assert "Question 1" in page and "Whose paper" in page
    sent = fields(paper(bench, number)) | {"person": str(bench.people.apprentice)}
    answer = browser.post(f"/paper/{number}", sent)
    assert answer.status_code == 303, answer.text
    assert "passed" in browser.get(answer.headers["Location"]).text
    assert "None. A check that is made" in browser.get("/paper").text
    assert browser.get(f"/paper/{number}").status_code == 302


def test_what_is_missing_on_it_is_named_and_all_that_was_typed_stays(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    (number,) = drawn(bench, browser)
    view = paper(bench, number)
    sent = fields(view) | {"person": str(bench.people.apprentice)}
    left_out = next(name for name in sent if name.startswith("part.1."))
    browser.get(f"/paper/{number}")
    answer = browser.post(f"/paper/{number}", {name: text for name, text in sent.items() if name != left_out})
    assert answer.status_code == 409 and "uestion 1" in answer.text and 'name="sure"' in answer.text
    assert f'href="#{left_out}"' in answer.text and f'id="{left_out}"' in answer.text, "each gap is one press away"
    kept = [name for name, question in enumerate(view.items, 1) if question.parts[0].kind == "number" and name > 1]
    for item in kept:
        name = f"part.{item}.{view.items[item - 1].parts[0].name}"
        assert f'name="{name}" value="{sent[name]}"' in answer.text
    with bench.shop() as shop:
        assert shop.count("answer") == shop.count("result") == 0
    assert browser.post(f"/paper/{number}", sent | {left_out: "", "sure": "yes"}).status_code == 303


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"person": ""}, "Whose paper is it?"),
        ({"person": "99"}, "no person"),
        ({"seen_on": "2026-11-03"}, "still to come"),
        ({"seen_on": "2026-11-01"}, "not printed yet"),
        ({"seen_on": "yesterday"}, "is no day"),
    ],
)
def test_a_paper_that_cannot_be_entered_so_is_told(bench: "Bench", more: dict[str, str], word: str) -> None:
    browser = bench.browser("trainer")
    (number,) = drawn(bench, browser)
    browser.get(f"/paper/{number}")
    sent = fields(paper(bench, number)) | {"person": str(bench.people.apprentice)} | more
    answer = browser.post(f"/paper/{number}", sent)
    assert answer.status_code == 409 and word in answer.text


def test_the_parts_of_a_question_have_one_letter_on_all_its_papers(bench: "Bench") -> None:
    """Beside the question, beside its key, beside the box it is typed into, and where it is missing: 2b."""
    browser = bench.browser("trainer")
    (number,) = drawn(bench, browser, "billing")
    view = paper(bench, number)
    item, parts = next((at, one.parts) for at, one in enumerate(view.items, 1) if len(one.parts) > 1)
    browser.get(f"/paper/{number}")
    gaps = browser.post(f"/paper/{number}", person=str(bench.people.apprentice)).text
    pages = [browser.get(f"/paper/{where}").text for where in (f"checks?form={number}", str(number))]
    for letter, _part in zip("abc", parts, strict=False):
        assert all(f"<strong>{item}{letter}</strong>" in page for page in pages)
        assert f'<th scope="row">{item}{letter}' in browser.get(f"/paper/keys?form={number}").text
        assert f"uestion {item}{letter}: " in gaps
    single = next(at for at, one in enumerate(view.items, 1) if len(one.parts) == 1)
    assert f"uestion {single}: " in gaps and f"<strong>{single}a</strong>" not in gaps


def test_a_number_of_copies_that_cannot_be_is_told_at_its_box(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    browser.get("/paper")
    page = browser.post("/paper", skill="ppe", copies="many").text
    assert "Copies: from 1 to 50" in page and 'href="#copies"' in page and 'aria-invalid="true"' in page
    assert 'value="many"' in page
    page = browser.post("/paper", skill="x", copies="1").text
    assert 'href="#copies"' not in page and "aria-invalid" not in page


def test_what_cannot_be_printed_is_told(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    browser.get("/paper")
    for fields in ({"skill": "ppe", "copies": "0"}, {"skill": "ppe", "copies": "many"}, {"skill": "x", "copies": "1"}):
        assert browser.post("/paper", fields).status_code == 409  # type: ignore[arg-type]
    assert browser.post("/paper", skill="balancing", person=str(bench.people.apprentice)).status_code == 409
    for address in (
        "/paper/checks",
        "/paper/keys?form=x",
        "/paper/99999",
        "/paper/checks?form=99999",
        "/paper/sheet/x",
    ):
        assert browser.get(address).status_code == 404
    assert "Name" in browser.get("/paper/sheet/ratio-pairing").text


@pytest.fixture
def entitled(bench: "Bench") -> "Bench":
    """The trainer may sign sheets of protection; Ann has passed its check."""
    with bench.shop() as shop:
        deeds.grant(
            shop, bench.people.manager, bench.people.trainer, "ppe", now=bench.now, basis="Papers seen.", founding=True
        )
    bench.pass_check(bench.people.apprentice, "ppe")
    return bench


WITHIN = {"eyewash_way": "7 s", "glove_chart": "20", "glove_worn": "9"}
"""What the sheet of protection measures, inside its limits."""


def filled(bench: "Bench", **more: object) -> dict[str, object]:
    """What a browser sends for the paper sheet of protection, filled in today and entered two days later."""
    day = bench.now.date().isoformat()
    bench.later(days=2)
    with bench.shop() as shop:
        view = deeds.open_sheet(shop, bench.people.trainer, bench.people.apprentice, "ppe", now=bench.now)
    sent: dict[str, object] = {"do": "sign", "seen": [str(step.number) for step in view.steps], "seen_on": day}
    assert {one.name for one in view.measures} == set(WITHIN)
    sent |= {f"measure.{name}": typed for name, typed in WITHIN.items()} | {"material": view.materials[0].id}
    return sent | {"instrument": "stop watch", "late": "yes", **more}


def test_a_paper_sheet_is_entered_late_with_its_photo(entitled: "Bench") -> None:
    sent = filled(entitled, photo=(io.BytesIO(PHOTO), "sheet.png"))
    browser = entitled.browser("trainer")
    browser.get("/sheets")
    answer = browser.post(f"/sheets/{entitled.people.apprentice}/ppe", sent)
    assert answer.status_code == 303, answer.text
    where = answer.headers["Location"]
    page = browser.get(where).text
    assert "late, from paper" in page and "2 Nov 2026" in page and "4 Nov 2026" in page
    shown = " ".join(re.sub(r"<[^>]*>", " ", page).split())
    assert "7 s s" not in shown and "7 s" in shown and "20 min" in shown, "a unit that was typed stands once"
    kept = browser.get(f"{where}/photo")
    assert (kept.data, kept.mimetype) == (PHOTO, "image/png")
    assert entitled.browser("other").get(f"{where}/photo").status_code == 403


@pytest.mark.parametrize(
    ("photo", "word"),
    [
        (b"", "photo of its paper"),
        (b"GIF89a" + b"\0" * 50, "not a photo"),
        (b"<svg onload=alert(1)>", "not a photo"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * (5 * 1024 * 1024), "too large"),
    ],
)
def test_a_late_sheet_without_a_fitting_photo_is_told_and_nothing_is_kept(
    entitled: "Bench", photo: bytes, word: str
) -> None:
    sent = filled(entitled, photo=(io.BytesIO(photo), "sheet.png"))
    browser = entitled.browser("trainer")
    browser.get("/sheets")
    answer = browser.post(f"/sheets/{entitled.people.apprentice}/ppe", sent)
    assert answer.status_code == 409 and word in answer.text and "checked" in answer.text
    assert photo or 'href="#photo"' in answer.text, "what is missing is one press away"
    with entitled.shop() as shop:
        assert shop.count("sheet") == 0


def test_a_photo_too_large_to_be_sent_at_all_is_told(entitled: "Bench") -> None:
    sent = filled(entitled, photo=(io.BytesIO(PHOTO + b"\0" * (7 * 1024 * 1024)), "sheet.png"))
    browser = entitled.browser("trainer")
    browser.get("/sheets")
    answer = browser.post(f"/sheets/{entitled.people.apprentice}/ppe", sent)
    assert answer.status_code == 413 and "5 MB" in answer.text
