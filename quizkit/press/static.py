"""The static build: an index, a page a lesson, and for the author a preview of each question with its keys."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from shutil import copyfile

from quizkit.pack.html import render
from quizkit.pack.model import Choice, Lesson, Module, Numeric, Pack, Part, Question
from quizkit.pack.nodes import Element, Node
from quizkit.pack.ready import asked_unit
from quizkit.pack.shown import lesson_figure, right_answer
from quizkit.pack.variant import ShownPart, Variant
from quizkit.pages import STATIC, page

_ADDRESS = re.compile(r'(?P<attribute>href|src)="(?![a-zA-Z][a-zA-Z0-9+.-]*:|[/#])(?P<path>[^"#]+)(?P<rest>#[^"]*)?"')
BESIDE = ("look.css", "paper.css", "mark.svg")
"""The files of the look that pages without a server need."""
SPREAD = 12
"""Variants that a preview shows, spread evenly over all that stand."""


@dataclass(frozen=True, slots=True)
class Foreseen:
    """A wrong answer that the author foresaw: its formula ("" for an option), its value, and what is said to it."""

    formula: str
    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Built:
    """What was written."""

    lessons: int
    previews: int


def build(pack: Pack, folder: Path) -> Built:
    """Write all pages below a folder. A page whose text stayed the same is left untouched."""
    write_style(folder)
    write_page(
        folder / "index.html",
        page("static_index.html", pack.scheme.language, look=look(pack, ""), modules=pack.modules),
    )
    for module in pack.modules:
        for lesson in module.lessons:
            write_page(folder / f"{lesson.id}.html", lesson_page(pack, module, lesson))
        for image in module.images:
            _write_bytes(folder / module.id / "image" / image.path, base64.b64decode(image.data))
        for question in module.questions:
            name = question.id.split("/")[-1]
            write_page(folder / "preview" / module.id / f"{name}.html", preview_page(pack, question))
    return Built(
        sum(len(module.lessons) for module in pack.modules), sum(len(module.questions) for module in pack.modules)
    )


def lesson_page(pack: Pack, module: Module, lesson: Lesson) -> str:
    """A lesson as one page that needs no server: each question stands in it with its first variant, without a key."""
    shown = [node for node in lesson.body if not _kept_for_the_check(pack, node)]
    blocks = [(kind, placed(html, "")) for kind, html in (_block(pack, node) for node in shown)]
    return page(
        "static_lesson.html", pack.scheme.language, look=look(pack, "../"), module=module, lesson=lesson, blocks=blocks
    )


def _kept_for_the_check(pack: Pack, node: Node) -> bool:
    return isinstance(node, Element) and node.tag == "question" and pack.question(node.get("id")).use == "check"


def _block(pack: Pack, node: Node) -> tuple[str, str]:
    """A piece of a lesson: what it is, and its HTML."""
    if isinstance(node, Element) and node.tag == "question":
        question = pack.question(node.get("id"))
        return ("question", _asked(variant(pack, question, question.numbers[0])))
    if isinstance(node, Element) and node.tag in ("caution", "source"):
        return (node.tag, render(node.children, lesson_figure))
    return ("text", render([node], lesson_figure))


def _asked(one: Variant) -> str:
    """A question as a reader without a server meets it: what it says, and what each part asks."""
    return one.prompt + "".join((part.ask and f"<div>{part.ask}</div>") + _listed(part) for part in one.parts)


def _listed(part: ShownPart) -> str:
    """What is to choose from. What is to be put in order or paired stands by the alphabet: as written is the key."""
    match part.kind:
        case "choice":
            return _numbered(part.options)
        case "order":
            return _numbered(sorted(part.options))
        case "match":
            return _numbered(part.options) + _numbered(sorted(part.targets), ' type="a"')
    return ""


def _numbered(items: Iterable[str], sort: str = "") -> str:
    return f"<ol{sort}>{''.join(f'<li>{item}</li>' for item in items)}</ol>"


def preview_page(pack: Pack, question: Question) -> str:
    """A question as its author checks it: variants spread over all that stand, with keys, slips and working."""
    shown = [variant(pack, question, number) for number in spread(question)]
    module = question.id.split("/")[0]
    prompts = [placed(one.prompt, f"../../{module}/") for one in shown]
    told = [{part.name: foreseen(one, part, pack) for part in question.parts} for one in shown]
    return page(
        "static_preview.html",
        pack.scheme.language,
        look=look(pack, "../../"),
        question=question,
        shown=zip(shown, prompts, told, strict=True),
    )


def foreseen(one: Variant, part: Part, pack: Pack) -> list[Foreseen]:
    """What is said to each slip of a number, with what it comes to, and to each option that has words of its own."""
    if isinstance(part, Numeric):
        asked = asked_unit(part)
        values = [
            "" if value is None else right_answer(part, asked.to_base(value), pack.style)
            for value in one.slip_values(part.name)
        ]
        return [
            Foreseen(slip.formula, value, one.text(slip.feedback))
            for slip, value in zip(part.slips, values, strict=True)
        ]
    if isinstance(part, Choice):
        shown = [part.options[place] for place in one.arranged(part.name, len(part.options))]
        return [Foreseen("", str(at), one.text(each.feedback)) for at, each in enumerate(shown, 1) if each.feedback]
    return []


def spread(question: Question) -> list[int]:
    """Numbers of up to twelve variants, the first and the last among them."""
    numbers = question.numbers
    count = min(SPREAD, len(numbers))
    if count < 2:
        return list(numbers)[:count]
    return [numbers[place * (len(numbers) - 1) // (count - 1)] for place in range(count)]


def variant(pack: Pack, question: Question, number: int) -> Variant:
    """A variant in the shop's own style of numbers, money and dates."""
    return question.variant(number, style=pack.style)


def write_style(folder: Path) -> None:
    """Put the stylesheets and the mark beside pages that need no server."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in BESIDE:
        copyfile(STATIC / name, folder / name)


def look(pack: Pack, up: str) -> dict[str, object]:
    """What stands around a page; `up` leads from it to the folder of the stylesheet."""
    return {
        "language": pack.scheme.language,
        "shop": pack.scheme.name,
        "static": up,
        "links": [],
        "person": "",
        "token": "",
        "invented": not pack.scheme.shelf_is_ours,
    }


def placed(html: str, folder: str) -> str:
    """A text whose relative addresses lead to the pages and pictures as files, from where its page lies."""

    def moved(found: re.Match[str]) -> str:
        ending = ".html" if found["attribute"] == "href" else ""
        return f'{found["attribute"]}="{folder}{found["path"]}{ending}{found["rest"] or ""}"'

    return _ADDRESS.sub(moved, html)


def write_page(path: Path, text: str) -> None:
    """Write a page, its folder too; one that stays the same is left untouched."""
    _write_bytes(path, text.encode())


def _write_bytes(path: Path, data: bytes) -> None:
    if path.exists() and path.read_bytes() == data:
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
