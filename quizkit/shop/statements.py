"""The evidence as other systems are told of it: one plain row for each thing that somebody did."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from quizkit.pack.model import Choice, Match, Module, Numeric, Order, Part
from quizkit.shop.forms import module_of_form
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_pack, module_of, pack_of
from quizkit.shop.people import person_view
from quizkit.shop.whose import owned


@dataclass(frozen=True, slots=True)
class StatementRow:
    """Who did what when.

    `row` names the row of evidence for good. `verb` is "attempted", "answered", "passed", "failed", "completed" or
    "voided"; `kind` "assessment", "interaction", "lesson" or "performance"; `activity` a path that means one thing for
    good. `raw` of `out_of` marks; `by` is the trainer of a sheet; `parent` the activity of the check that an answer
    belongs to and `registration` the row of its form; `voids` the row that this one takes back.
    """

    row: str
    person: int
    at: dt.datetime
    verb: str
    kind: str
    activity: str
    title: str = ""
    by: int | None = None
    raw: Fraction | None = None
    out_of: int = 0
    success: bool | None = None
    response: str = ""
    parent: str = ""
    registration: str = ""
    part_kind: str = ""
    language: str = "en"
    voids: str = ""


def statements(shop: Shop, *, now: dt.datetime, person: int | None = None) -> tuple[StatementRow, ...]:
    """Everything that was read, practised, checked, signed and taken back, in the order of time; of one person or all.

    Answers of a check are told once it is handed in. Raises Unknown for a person that is not there.
    """
    if person is not None:
        person_view(shop, person)
    told = [*_read(shop), *_practised(shop), *_checked(shop), *_signed(shop)]
    told += _taken_back(shop, {one.row for one in told})
    kept = [one for one in told if person in (None, one.person) and one.at <= now]
    return tuple(sorted(kept, key=lambda one: (one.at, one.row)))


def _read(shop: Shop) -> Iterator[StatementRow]:
    titles = {page.id: page.title for module in current_pack(shop).modules for page in module.lessons}
    for row in shop.rows("reading"):
        name = f"{row['person']}:{row['lesson']}"
        activity = f"lesson/{row['lesson']}"
        title = titles.get(row["lesson"], "")
        yield StatementRow(f"reading:{name}", row["person"], row["read_at"], "completed", "lesson", activity, title)


def _practised(shop: Shop) -> Iterator[StatementRow]:
    for row in shop.rows("practice"):
        yield _answered(shop, f"practice:{row['id']}", row["person"], row, row["question"])


def _checked(shop: Shop) -> Iterator[StatementRow]:
    results = {row["form"]: row for row in shop.rows("result")}
    for stored in shop.rows("form"):
        form = owned(shop, stored)
        if form["person"] is None:
            continue
        module, name = module_of_form(shop, form), f"form:{form['id']}"
        check = _check_of(module)
        yield StatementRow(
            name, form["person"], form["recorded_at"], "attempted", "assessment", check, module.scheme.title,
            registration=name, language=form["language"],
        )  # fmt: skip
        result = results.get(form["id"])
        if result is None:
            continue
        asked = {row["item"]: row["question"] for row in shop.rows("form_item", form=form["id"])}
        for row in shop.rows("answer", form=form["id"]):
            answer = f"answer:{row['id']}"
            yield _answered(shop, answer, form["person"], row, asked[row["item"]], check, name, form["language"])
        yield _result(result, module, check, name, form["language"])


def _answered(
    shop: Shop,
    name: str,
    person: int,
    row: Stored,
    question: str,
    parent: str = "",
    registration: str = "",
    language: str = "en",
) -> StatementRow:
    parts = pack_of(shop, row["pack"]).question(question).parts
    typed = [row["typed"].get(part.name, "") for part in parts]
    marks, out_of = Fraction(row["marks"]), Fraction(row["out_of"])
    return StatementRow(
        name,
        person,
        row["recorded_at"],
        "answered",
        "interaction",
        f"question/{question}",
        raw=marks,
        out_of=int(out_of),
        success=marks == out_of,
        response="; ".join(typed),
        parent=parent,
        registration=registration,
        part_kind=_kind(parts[0]) if len(parts) == 1 else "",
        language=language,
    )


def _result(row: Stored, module: Module, check: str, registration: str, language: str) -> StatementRow:
    return StatementRow(
        f"result:{row['id']}",
        row["person"],
        row["recorded_at"],
        "passed" if row["passed"] else "failed",
        "assessment",
        check,
        module.scheme.title,
        raw=Fraction(row["marks"]),
        out_of=int(Fraction(row["out_of"])),
        success=row["passed"],
        registration=registration,
        language=language,
    )


def _signed(shop: Shop) -> Iterator[StatementRow]:
    for row in shop.rows("sheet"):
        if row["outcome"] != "observed":
            verb = "passed" if row["outcome"] == "signed" else "failed"
            yield _sheet(shop, f"sheet:{row['id']}", row, row, verb)
        for name in shop.rows("signature", sheet=row["id"]):
            yield _sheet(shop, f"signature:{name['id']}", row, name, "passed")


def _sheet(shop: Shop, name: str, sheet: Stored, signed: Stored, verb: str) -> StatementRow:
    module = module_of(pack_of(shop, sheet["pack"]), sheet["skill"])
    return StatementRow(
        name,
        sheet["person"],
        signed["recorded_at"],
        verb,
        "performance",
        f"sheet/{module.id}",
        module.sheet.title if module.sheet else module.scheme.title,
        by=signed["done_by"],
        success=verb == "passed",
    )


def _taken_back(shop: Shop, there: set[str]) -> Iterator[StatementRow]:
    """What a struck row, or a withdrawal of a clearance, takes back: the row itself, or the last sign-off behind it."""
    for row in shop.rows("strike"):
        voided = f"{row['of_table']}:{row['of_row']}"
        if voided in there and row["person"] is not None:
            yield _void(f"strike:{row['id']}", row, voided)
    for row in shop.rows("withdrawal"):
        before = [
            one
            for one in shop.rows("sheet", person=row["person"], skill=row["skill"], outcome="signed")
            if one["id"] < row["id"]
        ]
        if before:
            yield _void(f"withdrawal:{row['id']}", row, f"sheet:{before[-1]['id']}")


def _void(name: str, row: Stored, voided: str) -> StatementRow:
    by = row["done_by"]
    return StatementRow(name, row["person"], row["recorded_at"], "voided", "performance", "", by=by, voids=voided)


def _check_of(module: Module) -> str:
    return f"check/{module.id}"


def _kind(part: Part) -> str:
    match part:
        case Numeric():
            return "number"
        case Choice():
            return "choice"
        case Order():
            return "order"
        case Match():
            return "match"
