"""The evidence as other systems are told of it: one plain row for each thing that somebody did."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace
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
        yield from _corrected(shop, result, module, check, name, form["language"])


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


def _corrected(
    shop: Shop, result: Stored, module: Module, check: str, registration: str, language: str
) -> Iterator[StatementRow]:
    """What the check came to after each time it was marked again."""
    told = _result(result, module, check, registration, language)
    marks = Fraction(result["marks"])
    for row in shop.rows("remark", result=result["id"]):
        marks += Fraction(row["new_marks"]) - Fraction(row["old_marks"])
        verb = "passed" if row["passed"] else "failed"
        yield replace(
            told, row=f"remark:{row['id']}", at=row["recorded_at"], verb=verb, raw=marks, success=row["passed"]
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
    """What a struck row, or a withdrawal of a clearance, takes back: the row itself, or the last sign-off behind it.

    Nothing is taken back twice: a withdrawal after another one, or after a struck sheet, reaches for what still stands.
    """
    gone: set[str] = set()
    for table, row in sorted(_takes_back(shop), key=lambda each: int(each[1]["id"])):
        voided = _sign_off(shop, row, gone) if table == "withdrawal" else _struck(shop, row)
        if voided in there - gone and row["person"] is not None:
            gone.add(voided)
            yield _void(f"{table}:{row['id']}", row, voided)


def _takes_back(shop: Shop) -> Iterator[tuple[str, Stored]]:
    for table in ("strike", "withdrawal"):
        yield from ((table, row) for row in shop.rows(table))


def _struck(shop: Shop, row: Stored) -> str:
    """The row that is told of what was struck: of an observed sheet its signature."""
    names = shop.rows("signature", sheet=row["of_row"]) if row["of_table"] == "sheet" else []
    return f"signature:{names[-1]['id']}" if names else f"{row['of_table']}:{row['of_row']}"


def _sign_off(shop: Shop, withdrawal: Stored, gone: set[str]) -> str:
    """The last sign-off before a withdrawal that nothing has taken back yet: a signed sheet, or a signature."""
    own = {"person": withdrawal["person"], "skill": withdrawal["skill"]}
    sheets = shop.rows("sheet", **own)
    names = shop.rows("signature", sheet=[row["id"] for row in sheets])
    signed = [(row["id"], f"sheet:{row['id']}") for row in sheets if row["outcome"] == "signed"]
    signed += [(row["id"], f"signature:{row['id']}") for row in names]
    before = [one for one in signed if one[0] < withdrawal["id"] and one[1] not in gone]
    return max(before, default=(0, ""))[1]


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
