"""The sums of the trade at the bench: one small form each, open to whoever stands there."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, abort, request

from quizkit import shop as deeds
from quizkit.pages import sentence
from quizkit.shop import ShelfLabel
from quizkit.trade import SUMS
from quizkit.trade.bench import Bench, bench
from quizkit.trade.declare import Sum
from quizkit.trade.typed import Typed, read
from quizkit.units import KindError, UnitError
from quizkit.web import boxes
from quizkit.web.bench import now, shop, show
from quizkit.words import _

area = Blueprint("sums", __name__)

Shelf = Sequence[tuple[ShelfLabel, Mapping[str, str]]]
"""The labels of the materials in stock, each with its fields as they may be typed."""
MOST_ROWS = 12
"""Repeated groups that a form may grow to."""
LONGEST = 60
"""Characters of a typed value."""
INTO = -1
"""The place of the box for the unit of the result, among those that were not understood."""


@dataclass(frozen=True, slots=True)
class Field:
    """One value that a sum takes: its box, what stands in it, and what was not understood."""

    name: str
    words: str
    hint: str
    kind: str
    typed: str
    unread: str


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that comes before the sum, with its answer so far: "yes", "no" or nothing."""

    name: str
    words: str
    answer: str


@area.get("/sums")
def all_sums() -> Any:
    """Every sum by what it is about."""
    groups = [(title, [one for one in SUMS.values() if _room(one) == room]) for room, title in _rooms().items()]
    return show("sums.html", here="/sums", groups=groups, parts=_parts)


@area.get("/sums/<name>")
def one_sum(name: str) -> Any:
    """One sum: its form, and the result with its working once there are values."""
    one = SUMS.get(name) or abort(404)
    typed, rows = _typed(one, request.args)
    shelf = deeds.bench_shelf(shop(), now=now()) if _from_shelf(one) else ()
    label, texts = _filled(one, typed, shelf, request.args.get("shelf", ""))
    asked = [Asked(f"ask.{n}", _(each.text), request.args.get(f"ask.{n}", "")) for n, each in enumerate(one.asks, 1)]
    into = request.args.get("into", "")[:LONGEST].strip()
    told, unread = None, dict[int, str]()
    if any(typed) or all(texts) or any(each.answer for each in asked):
        values, unread = _read(one, texts)
        if not unread:
            told, unread = _worked(one, values, asked, into)
    return show(
        "sum.html", 422 if unread else 200, here="/sums", one=one, parts=_parts, fields=_fields(one, texts, unread),
        asked=asked, told=told, into=into, into_unread=unread.get(INTO, ""), rows=rows, in_words=in_words,
        more=one.repeats and rows < MOST_ROWS, cautions=[_(text) for text in one.cautions],
        shelf=[each.name for each, _texts in shelf], label=label,
    )  # fmt: skip


def in_words(formula: str) -> str:
    """A formula as it is read at the bench: 'base × B part ÷ A part' for 'base × ratio.b ÷ ratio.a'."""
    said = re.sub(r"\bratio\.([ab])\b", lambda side: f"{side[1].upper()} part", formula)
    said = re.sub(r"\b[ab]\b|(?<=_)[ab]\b|\b[ab](?=_)|\bidlh\b", lambda name: name[0].upper(), said)
    return said.replace("_", " ")


def _parts(title: str) -> tuple[str, str]:
    """A title as its head and what it adds: they part at the first colon or semicolon."""
    head, sign, more = re.split("([;:]) ", title, maxsplit=1) if re.search("[;:] ", title) else (title, "", "")
    return head, more if sign else ""


def _from_shelf(one: Sum) -> bool:
    """Whether the shelf's labels say anything that a sum takes."""
    return any(boxes.shelf_field(one.name, name) for name, _word in one.takes)


def _filled(one: Sum, typed: Sequence[str], shelf: Shelf, material: str) -> tuple[ShelfLabel | None, list[str]]:
    """The label of the material that was named, and the texts of the boxes: a blank one takes what the label says."""
    for label, fields in shelf:
        if label.name == material:
            names = [boxes.shelf_field(one.name, one.argument(index)[0]) for index in range(len(typed))]
            return label, [text or fields.get(name, "") for text, name in zip(typed, names, strict=True)]
    return None, list(typed)


def _typed(one: Sum, given: Mapping[str, str]) -> tuple[list[str], int]:
    """The texts of all boxes in order, and how many times the repeated group is shown."""
    fixed = len(one.takes) - one.repeats
    rows = 1
    if one.repeats:
        asked = given.get("rows", "")
        filled = [at for at in range(fixed + one.repeats * MOST_ROWS) if given.get(f"v.{at}", "").strip()]
        needed = (max(filled, default=0) - fixed) // one.repeats + 1
        rows = min(max(needed, int(asked) if asked.isdecimal() and len(asked) < 3 else 2, 1), MOST_ROWS)
    count = fixed + (one.repeats * rows if one.repeats else 0)
    return [given.get(f"v.{index}", "")[:LONGEST].strip() for index in range(count)], rows


def _read(one: Sum, texts: Sequence[str]) -> tuple[list[Typed], dict[int, str]]:
    """The values read, and what was not understood by place; repeated groups that are left blank are left out."""
    values: list[Typed] = []
    unread: dict[int, str] = {}
    for index, text in enumerate(texts):
        if not text and _blank_group(one, texts, index):
            continue
        try:
            values.append(read(one.argument(index)[1], text))
        except UnitError as error:
            unread[index] = _misread(error, one, index) if text else _("Nothing stands here yet.")
    return values, unread


def _blank_group(one: Sum, texts: Sequence[str], index: int) -> bool:
    """Whether a box lies in a repeated group, not the first, in which nothing was typed."""
    if index < len(one.takes) or not one.repeats:
        return False
    start = index - (index - len(one.takes)) % one.repeats
    return not any(texts[start : start + one.repeats])


def _misread(error: UnitError, one: Sum, index: int) -> str:
    """Why a value was not read; what it wants is said in values of its own kind, where no near unit was found."""
    name, kind = one.argument(index)
    wanted = boxes.hint(one.name, name, kind)
    if error.nearest or not wanted or kind == "date" or kind.startswith("ratio"):
        return _said(error)
    return f"{sentence(error.what)} {_('Wanted: {hint}.').format(hint=wanted)}"


def _said(error: KindError | UnitError) -> str:
    """What is wrong with a value and how to mend it, in sentences."""
    return " ".join(sentence(words) for words in (error.what, error.mend) if words)


def _worked(
    one: Sum, values: Sequence[Typed], asked: Sequence[Asked], into: str
) -> tuple[Bench | None, dict[int, str]]:
    """The sum worked out, or what does not go, by the place of its box."""
    answers = []
    for each in asked:
        if each.answer not in ("yes", "no"):
            break
        answers.append(each.answer == "yes")
    try:
        return bench(one, values, into=into, answers=answers), {}
    except KindError as error:
        own = error.__cause__ if isinstance(error.__cause__, KindError) else error
        return None, {INTO if error.argument is None else error.argument: _said(own)}
    except UnitError as error:
        return None, {INTO: _said(error)}


def _fields(one: Sum, texts: Sequence[str], unread: Mapping[int, str]) -> list[Field]:
    found = []
    for index, text in enumerate(texts):
        name, word = one.argument(index)
        group = (index - len(one.takes)) // one.repeats + 2 if one.repeats and index >= len(one.takes) else 1
        words = boxes.label(one.name, name)
        if one.repeats and index >= len(one.takes) - one.repeats:
            words = f"{words} {group}"
        found.append(Field(f"v.{index}", words, boxes.hint(one.name, name, word), word, text, unread.get(index, "")))
    return found


def _room(one: Sum) -> str:
    return one.body.__module__.rpartition(".")[2]


def _rooms() -> dict[str, str]:
    return {
        "ratio": _("Ratio and balance"),
        "bead": _("Beads and cartridges"),
        "flow": _("Pressure, flow and time"),
        "exposure": _("Air, noise and gloves"),
        "storage": _("Store and dates"),
        "billing": _("The ticket"),
    }
