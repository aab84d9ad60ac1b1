"""What stands behind a cell of the matrix, row by row: what was practised, asked, seen, signed, lifted, withdrawn."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from quizkit.pack.sheets import judge_words
from quizkit.pack.shown import day
from quizkit.scoring.marks import show_mark
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import scheme_of, settings
from quizkit.shop.people import person_view
from quizkit.shop.signing import right_words
from quizkit.shop.whose import forms_of
from quizkit.words import _, ngettext


@dataclass(frozen=True, slots=True)
class ChainRow:
    """A row of evidence in words.

    `when` is the day it was seen; `link` ("form:12", "sheet:3") opens it where there is more. `counts` is whether the
    standing rests on it; `struck` why it counts no more, or "".
    """

    id: str
    when: dt.date
    recorded_at: dt.datetime
    kind: str
    words: str
    by: str
    right: str
    link: str
    counts: bool
    late: bool
    struck: str
    seal: str


def chain(
    shop: Shop, person: int, skill: str, counting: frozenset[str], day: dt.date, until: dt.datetime
) -> tuple[ChainRow, ...]:
    """The evidence of a person in a skill seen up to a day and recorded up to a moment, in the order it was recorded.

    `counting` are the ids on which the standing rests.
    """
    struck = {f"{row['of_table']}:{row['of_row']}": row["note"] for row in shop.rows("strike", person=person)}
    rows = [
        _told(shop, table, row, counting, struck, day)
        for table, row in _rows(shop, person, skill)
        if row["recorded_at"] <= until and row["seen_on"] <= day
    ]
    return tuple(sorted(rows, key=lambda row: int(row.id.partition(":")[2])))


def _rows(shop: Shop, person: int, skill: str) -> Iterator[tuple[str, Stored]]:
    own = {"person": person, "skill": skill}
    first = shop.rows("practice", limit=1, **own)
    yield from (("practice", row) for row in first)
    for table in ("result", "talk", "lift", "sheet", "withdrawal"):
        yield from ((table, row) for row in shop.rows(table, **own))
    sheets = [row["id"] for row in shop.rows("sheet", **own)]
    forms = forms_of(shop, person, skill=skill)
    yield from (("signature", row) for row in shop.rows("signature", sheet=sheets))
    withdrawals = [row["id"] for row in shop.rows("withdrawal", **own)]
    yield from (("withdrawal_end", row) for row in shop.rows("withdrawal_end", withdrawal=withdrawals))
    yield from (("remark", row) for row in shop.rows("remark", form=forms))
    appeals = [*shop.rows("appeal", form=forms), *shop.rows("appeal", sheet=sheets)]
    yield from (("appeal", row) for row in appeals)
    yield from (("appeal_answer", row) for row in shop.rows("appeal_answer", appeal=[row["id"] for row in appeals]))
    kinds = list(scheme_of(shop).skill(skill).proofs) if skill in scheme_of(shop).by_id else []
    yield from (("outside_proof", row) for row in shop.rows("outside_proof", person=person, kind=kinds))


def _told(
    shop: Shop, table: str, row: Stored, counting: frozenset[str], struck: dict[str, str], day: dt.date
) -> ChainRow:
    name = f"{table}:{row['id']}"
    return ChainRow(
        id=name,
        when=row["seen_on"],
        recorded_at=row["recorded_at"],
        kind=table,
        words=_practice(shop, row, day) if table == "practice" else _WORDS[table](shop, row),
        by=person_view(shop, row["done_by"]).name if row["done_by"] else "",
        right=right_words(shop, row) if table in ("sheet", "signature") else "",
        link=_link(table, row),
        counts=name in counting,
        late=bool(row.get("late", False)),
        struck=struck.get(name, ""),
        seal=row["seal"],
    )


def _link(table: str, row: Stored) -> str:
    if table in ("result", "remark"):
        return f"form:{row['form']}"
    if table == "sheet":
        return f"sheet:{row['id']}"
    return f"sheet:{row['sheet']}" if table == "signature" else ""


def _result(shop: Shop, row: Stored) -> str:
    kinds = {"full": _("check"), "renewal": _("renewal check"), "difference": _("difference check")}
    marks = show_mark(Fraction(row["marks"]), settings(shop).mark)
    word = _("passed") if row["passed"] else _("failed")
    text = _("{kind} {word}, {marks} of {out_of}").format(
        kind=kinds[row["kind"]], word=word, marks=marks, out_of=row["out_of"]
    )
    if row["critical_missed"]:
        text += ", " + _("a critical question was wrong")
    return text + (", " + _("handed in by itself") if row["by_itself"] else "")


def _sheet(shop: Shop, row: Stored) -> str:
    words = {"signed": _("sheet signed"), "refused": _("sheet refused"), "observed": _("sheet observed")}
    material = ", ".join(part for part in (row["material"], row["family"], row["ratio"]) if part)
    parts = [words[row["outcome"]], material]
    parts += [f"{judge_words(one['name'])} {one['shown']} ({one['limits']})" for one in row["judged"]]
    return "; ".join(part for part in (*parts, row["note"] if row["outcome"] == "refused" else "") if part)


def _practice(shop: Shop, row: Stored, until: dt.date) -> str:
    """That practice began, which this row is the evidence of, and how far it had gone by a day."""
    days = shop.values("practice", "seen_on", person=row["person"], skill=row["skill"])
    count = sum(seen <= until.isoformat() for seen in days)
    text = ngettext("practice begun; {count} answer up to {day}", "practice begun; {count} answers up to {day}", count)
    return text.format(count=count, day=day(until))


def _proof(shop: Shop, row: Stored) -> str:
    title = scheme_of(shop).proof_title(row["kind"])
    until = day(row["until"]) if row["until"] else ""
    text = _("{title} in date until {until}").format(title=title, until=until) if until else title
    return text + (f" ({row['detail']})" if row["detail"] else "")


def _end(shop: Shop, row: Stored) -> str:
    word = _("earlier evidence counts again") if row["restores"] else _("earlier evidence counts no more")
    return _("withdrawal ended: {note}; {word}").format(note=row["note"], word=word)


def _remark(shop: Shop, row: Stored) -> str:
    text = _("question {item} marked again: {old} became {new}; the check is {word}")
    word = _("passed") if row["passed"] else _("failed")
    return text.format(item=row["item"], old=row["old_marks"], new=row["new_marks"], word=word)


def _answered(shop: Shop, row: Stored) -> str:
    word = _("upheld") if row["upheld"] else _("not upheld")
    return _("appeal {word}: {note}").format(word=word, note=row["note"])


_WORDS: dict[str, Callable[[Shop, Stored], str]] = {
    "result": _result,
    "talk": lambda shop, row: _("talked over: {note}").format(note=row["note"]),
    "lift": lambda shop, row: _("wait lifted: {note}").format(note=row["note"]),
    "sheet": _sheet,
    "signature": lambda shop, row: _("signed the observed sheet"),
    "withdrawal": lambda shop, row: _("withdrawn: {note}").format(note=row["note"]),
    "withdrawal_end": _end,
    "remark": _remark,
    "appeal": lambda shop, row: _("appeal: {note}").format(note=row["note"]),
    "appeal_answer": _answered,
    "outside_proof": _proof,
}
"""What a row of each kind says."""
