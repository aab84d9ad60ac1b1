"""Before an answer is in, no byte that a browser gets holds a key: no right value, working, feedback, or flag.

Every response is read, headers and body. Excepted is the geometry of pictures: a drawn gauge stands where it stands.
"""

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.demo.answers import right
from quizkit.pack.model import Choice, Numeric
from quizkit.pack.variant import Variant
from quizkit.shop.asking import QuestionView, variant_of, words_of

if TYPE_CHECKING:
    from conftest import Bench
    from werkzeug.test import TestResponse

GEOMETRY = frozenset(
    [
        "d",
        "x",
        "y",
        "x1",
        "x2",
        "y1",
        "y2",
        "cx",
        "cy",
        "r",
        "rx",
        "ry",
        "dx",
        "dy",
        "width",
        "height",
        "points",
        "transform",
        "viewbox",
        "offset",
        "pathlength",
        "stroke-dasharray",
        "stroke-width",
        "font-size",
        "textlength",
    ]
)
"""The attributes of a picture that place its lines, and no more."""
OF_EVERY_PAGE = frozenset(["maxlength", "content"])
DRAWN = re.compile(r"\b[0-9a-f]{128}\b|\b[\w-]{43}(?![\w-])")
"""Tokens of forms and cookies, drawn at random: any digits may stand in them."""
NUMBER = re.compile(r"\d+(?:[.,]\d+)*(?: \d/\d)?|[½¼¾]")
TELLING = 3
"""Signs of a number from which on it is no accident that a page holds it."""


class Seen(HTMLParser):
    """All that a page says: texts, and attributes that are no geometry; and how each box is marked up.

    The numbers along a drawn scale are the same whatever stands on it: a reading of 100 is no key beside its mark.
    """

    def __init__(self) -> None:
        super().__init__()
        self.on_a_scale = False
        self.said: list[str] = []
        self.boxes: dict[str, set[tuple[str, ...]]] = {}

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.said += [f"{name}={value}" for name, value in attrs if name not in GEOMETRY | OF_EVERY_PAGE]
        names = dict(attrs)
        self.on_a_scale = tag == "text" and names.get("class") == "number"
        if (tag == "input" and names.get("type") in ("radio", "checkbox")) or tag == "select":
            rest = (f"{name}={value}" for name, value in attrs if name not in ("value", "name"))
            part = re.sub(r"\.\d+$", "", names["name"] or "")
            self.boxes.setdefault(part, set()).add((tag, *rest))

    def handle_data(self, data: str) -> None:
        if not self.on_a_scale:
            self.said.append(data)
        self.on_a_scale = False

    def handle_comment(self, data: str) -> None:
        self.said.append(data)


def sentences(variant: Variant) -> Iterator[str]:
    """Every text of a question that explains: workings, feedback of slips and options."""
    question = variant.question
    texts = [question.working, *(part.working for part in question.parts)]
    for part in question.parts:
        if isinstance(part, Numeric):
            texts += [slip.feedback for slip in part.slips]
        if isinstance(part, Choice):
            texts += [option.feedback for option in part.options]
    for nodes in texts:
        if len(words := words_of(variant.text(nodes))) >= 15:
            yield words


def shown(view: QuestionView) -> str:
    """The words of a question that its reader is given: prompt, asks, options, and the label beside it."""
    texts = [view.prompt_html]
    for part in view.parts:
        texts += [part.ask_html, part.unit, part.hint, part.typed]
        texts += [option.html for option in (*part.options, *part.targets)]
    if view.label is not None:
        texts += [view.label.ratio, *(value for _title, value in view.label.lines)]
    return " ".join(words_of(text) for text in texts)


def keys(variant: Variant, view: QuestionView) -> set[str]:
    """The right numbers of a question that are long enough to tell, as a page would write them."""
    found = {
        number
        for part in variant.question.parts
        if isinstance(part, Numeric)
        for number in NUMBER.findall(variant.right(part.name))
    }
    return {number for number in found if len(number) >= TELLING} - set(NUMBER.findall(shown(view)))


def holds_no_key(answer: "TestResponse", variant: Variant, view: QuestionView, around: str = "") -> None:
    """`around`: what else the page says by right, whose numbers may happen to be the right ones.

    For a check that is the words of its other questions, for practice the number that the draw has in its address.
    """
    seen = Seen()
    seen.feed(answer.text)
    heads = [f"{name}: {value}" for name, value in answer.headers if name != "Content-Length"]
    said = DRAWN.sub("", " ".join(" ".join((*seen.said, *heads)).split()))
    where = f"{variant.question.id} {variant.number}"
    assert not (keys(variant, view) - set(NUMBER.findall(around))) & set(NUMBER.findall(said)), where
    assert not [words for words in sentences(variant) if words in said], where
    assert all(len(markups) == 1 for markups in seen.boxes.values()), (where, seen.boxes)
    assert "data-values" not in answer.text, where


def variant_behind(bench: "Bench", table: str, **equals: object) -> Variant:
    with bench.shop() as shop:
        row = shop.row(table, **equals)
        assert row is not None
        return variant_of(bench.pack, row["question"], row["variant"], row["ordering"])


def test_practice_sends_no_key_before_the_answer(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    told = 0
    for module in bench.pack.modules:
        for question in module.questions:
            if question.use == "check":
                continue
            drawn = browser.post(f"/practise/{module.scheme.skill}", question=question.id)
            if drawn.status_code == 409:
                continue
            where = drawn.headers["Location"]
            number = where.rsplit("/", 1)[1]
            variant = variant_behind(bench, "draw", id=int(number))
            with bench.shop() as shop:
                asked = deeds.practice_view(shop, bench.people.apprentice, number, now=bench.now)
            pages = [drawn, browser.get(where), browser.post(where)]
            assert pages[2].status_code == 422
            for page in pages:
                holds_no_key(page, variant, asked.question, around=number)
            told += bool(keys(variant, asked.question))
    assert told > 20, "too few numbers that would be found if they were sent"


@pytest.mark.parametrize("skill", ["ppe", "billing"])
def test_a_check_sends_no_key_before_it_is_handed_in(bench: "Bench", skill: str) -> None:
    browser = bench.browser("apprentice")
    pages = [browser.post(f"/check/{skill}")]
    form = int(pages[0].headers["Location"].rsplit("/", 1)[1])
    with bench.shop() as shop:
        items = len(shop.rows("form_item", form=form))
    views = {}
    for item in range(1, items + 1):
        with bench.shop() as shop:
            views[item] = deeds.check_item(shop, bench.people.apprentice, form, item, now=bench.now).question
        pages.append(browser.get(f"/check/form/{form}/{item}"))
        typed = right(bench.pack, views[item]) if item % 2 else {part.name: "what?" for part in views[item].parts}
        pages.append(browser.post(f"/check/form/{form}/{item}", {f"part.{name}": typed[name] for name in typed}))
        # an order or pairs take nothing of "what?": such a question is asked again at once
        pages.append(browser.get(pages[-1].headers.get("Location", f"/check/form/{form}/{item}")))
    pages += [browser.get(f"/check/form/{form}/list"), browser.get("/"), browser.get(f"/module/{skill}")]
    pages.append(browser.post(f"/check/form/{form}/hand-in"))
    assert pages[-1].status_code == 409
    around = " ".join(shown(view) for view in views.values())
    for item, view in views.items():
        variant = variant_behind(bench, "form_item", form=form, item=item)
        typed_later = pages[: 3 * item - 1]
        for page in typed_later if item % 2 else pages:
            holds_no_key(page, variant, view, around)


def test_a_lesson_sends_no_key_of_its_questions(bench: "Bench") -> None:
    """A lesson teaches in words and numbers of its own; beyond these nothing of a working or a feedback is in it."""
    browser = bench.browser("apprentice")
    for module in bench.pack.modules:
        for lesson in module.lessons:
            text = words_of(browser.get(f"/lesson/{lesson.id}").text)
            with bench.shop() as shop:
                view = deeds.lesson_view(shop, bench.people.apprentice, module.id, lesson.id, now=bench.now)
            taught = " ".join(words_of(block.html) for block in view.body if block.kind != "question")
            for name in lesson.questions:
                variant = bench.pack.question(name).variant(next(iter(bench.pack.question(name).numbers)))
                assert not [words for words in sentences(variant) if words in text and words not in taught], name
