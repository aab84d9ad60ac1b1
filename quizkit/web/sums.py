"""The sums of the trade at the bench: one small form each, open to whoever stands there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, abort, request

from quizkit.trade import SUMS
from quizkit.trade.bench import Bench, bench
from quizkit.trade.declare import Sum
from quizkit.trade.typed import Typed, read
from quizkit.units import KindError, UnitError
from quizkit.web.bench import show
from quizkit.words import _

area = Blueprint("sums", __name__)

MOST_ROWS = 12
"""Repeated groups that a form may grow to."""
LONGEST = 60
"""Characters of a typed value."""


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
    return show("sums.html", here="/sums", groups=groups)


@area.get("/sums/<name>")
def one_sum(name: str) -> Any:
    """One sum: its form, and the result with its working once there are values."""
    one = SUMS.get(name) or abort(404)
    texts, rows = _typed(one, request.args)
    asked = [Asked(f"ask.{n}", _(each.text), request.args.get(f"ask.{n}", "")) for n, each in enumerate(one.asks, 1)]
    told, fields, fault = None, _fields(one, texts, {}), ""
    if any(texts) or any(each.answer for each in asked):
        values, unread = _read(one, texts)
        fields = _fields(one, texts, unread)
        if not unread:
            told, fault = _worked(one, values, asked, request.args.get("into", "")[:LONGEST].strip())
    status = 422 if fault or any(field.unread for field in fields) else 200
    into = request.args.get("into", "")[:LONGEST]
    more = one.repeats and rows < MOST_ROWS
    return show(
        "sum.html", status, here="/sums", one=one, fields=fields, asked=asked, told=told, fault=fault, into=into,
        rows=rows, more=more, cautions=[_(text) for text in one.cautions],
    )  # fmt: skip


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
            unread[index] = str(error) if text else _("Nothing stands here yet.")
    return values, unread


def _blank_group(one: Sum, texts: Sequence[str], index: int) -> bool:
    """Whether a box lies in a repeated group, not the first, in which nothing was typed."""
    if index < len(one.takes) or not one.repeats:
        return False
    start = index - (index - len(one.takes)) % one.repeats
    return not any(texts[start : start + one.repeats])


def _worked(one: Sum, values: Sequence[Typed], asked: Sequence[Asked], into: str) -> tuple[Bench | None, str]:
    answers = []
    for each in asked:
        if each.answer not in ("yes", "no"):
            break
        answers.append(each.answer == "yes")
    try:
        return bench(one, values, into=into, answers=answers), ""
    except (KindError, UnitError) as error:
        return None, f"{error} {error.mend}"


def _fields(one: Sum, texts: Sequence[str], unread: Mapping[int, str]) -> list[Field]:
    found = []
    for index, text in enumerate(texts):
        name, word = one.argument(index)
        group = (index - len(one.takes)) // one.repeats + 2 if one.repeats and index >= len(one.takes) else 1
        words = name.replace("_", " ") + (f" {group}" if one.repeats and index >= len(one.takes) - one.repeats else "")
        found.append(Field(f"v.{index}", words, _hints().get(word, ""), word, text, unread.get(index, "")))
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


def _hints() -> dict[str, str]:
    """How a value of each kind may be typed."""
    return {
        "amount": _("a volume or a mass: 60 mL or 70 g"),
        "amount of ratio": _("a volume, or a mass where the ratio is by weight: 120 mL"),
        "same": _("an amount, the same kind in every box: 12, 400 mL or $50"),
        "area": _("12 mm² or 0.5 in²"),
        "concentration": _("20 mg/m³"),
        "date": _("year-month-day: 2027-05-31"),
        "density": _("1.2 g/mL"),
        "exposure": _("20 ppm or 85 mg/m³"),
        "exposure each": _("20 ppm or 85 mg/m³"),
        "flow": _("1.5 mL/s"),
        "force": _("200 N or 45 lbf"),
        "length": _("6 mm or 1/4 in"),
        "mass": _("27.4 g"),
        "molar mass": _("104.15 g/mol"),
        "money": _("$14.50"),
        "months": _("9"),
        "number": _("3"),
        "ppm": _("20 ppm"),
        "pressure": _("85 psi or 6 bar"),
        "ratio": _("10:1 by volume, or 2:1 by weight"),
        "ratio by volume": _("10:1 by volume"),
        "share": _("25 %"),
        "sound": _("92 dBA"),
        "speed": _("8 mm/s"),
        "temperature": _("20 °C or 68 °F"),
        "time": _("6 min or 45 s"),
        "turns": _("2 1/2 turns"),
        "viscosity": _("50 Pa·s"),
        "volume": _("60 mL or 2 fl oz"),
    }
