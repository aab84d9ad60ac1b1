"""The rows of the file as standing reads them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from quizkit.shop.handle import Shop, Stored
from quizkit.shop.terms import terms_from
from quizkit.standing import events as e
from quizkit.standing.counting import settle
from quizkit.standing.events import Event

Whose = int | Sequence[int] | None
"""One person, several, or everybody."""


def events(shop: Shop, person: Whose = None) -> tuple[Event, ...]:
    """The evidence of one person, several, or everybody, as events. Ids are "table:number"."""
    return tuple(_read(shop, {} if person is None else {"person": person}))


def results_of(shop: Shop, person: int, skill: str) -> tuple[e.CheckResult, ...]:
    """The checks of a person in a skill in order, as they count: struck ones gone, remarks worked in."""
    who = {"person": person}
    struck = [_struck(row, _common("strike", row)) for row in shop.rows("strike", **who)]
    rows = settle([*_checked(shop, who), *struck], str(person), dt.date.max).of(skill)
    return tuple(row for row in rows if isinstance(row, e.CheckResult))


def row_id(table: str, row: Stored) -> str:
    """The id of a row as events and links name it."""
    return f"{table}:{row['id']}"


def _read(shop: Shop, who: Mapping[str, Whose]) -> Iterator[Event]:
    for table, made in _PLAIN.items():
        yield from (made(row, _common(table, row)) for row in shop.rows(table, **who))
    yield from _practised(shop, who)
    yield from _checked(shop, who)
    for row in shop.rows("withdrawal", **who):
        # One entered late was written after every moment of its day: it takes away all that was shown on that day.
        yield _withdrawal(row, _common("withdrawal", row, row["recorded_at"]))
    yield from _sheets(shop, who)
    yield from _struck_rows(shop, who)


def _common(table: str, row: Stored, moment: dt.datetime | None = None) -> dict[str, Any]:
    return {
        "id": row_id(table, row),
        "person": str(row["person"]),
        "seen_on": row["seen_on"],
        "recorded_at": row["recorded_at"],
        "moment": moment,
    }


def _practised(shop: Shop, who: Mapping[str, Whose]) -> Iterator[Event]:
    """The first practice of each person and skill: more of them change no standing."""
    for row in shop.oldest("practice", "person", "skill", **who):
        yield e.Practice(**_common("practice", row), skill=row["skill"])


def _struck_rows(shop: Shop, who: Mapping[str, Whose]) -> Iterator[Event]:
    """Struck rows; an observed sheet takes the signatures on it along."""
    for row in shop.rows("strike", **who):
        yield _struck(row, _common("strike", row))
        for name in shop.rows("signature", sheet=row["of_row"]) if row["of_table"] == "sheet" else ():
            yield e.Struck(**_common("strike", row), row=row_id("signature", name), reason=row["note"])


def _checked(shop: Shop, who: Mapping[str, Whose]) -> Iterator[Event]:
    """Results with the moment they were handed in, or closed by themselves; of paper only the day is known."""
    forms = {row["id"]: row for row in shop.rows("form", **who)}
    blank = {row["id"]: row for row in shop.rows("form", person=None)}
    for row in shop.rows("result", **who):
        form = forms.get(row["form"]) or blank[row["form"]]
        handed = min(row["recorded_at"], form["closes_at"]) if row["by_itself"] else row["recorded_at"]
        yield _result(row, _common("result", row, None if form["paper"] else handed))
    for row in shop.rows("remark", **who):
        yield _remark(row, _common("remark", row, row["recorded_at"]))


def _sheets(shop: Shop, who: Mapping[str, Whose]) -> Iterator[Event]:
    """Sheets, and the signatures under those that were first observed."""
    for row in shop.rows("sheet", **who):
        signed = str(row["done_by"]) if row["outcome"] == "signed" else ""
        common = _common("sheet", row, None if row["late"] else row["recorded_at"])
        yield _sheet(row, common, row["outcome"], signed)
        if row["outcome"] == "observed":
            for name in shop.rows("signature", sheet=row["id"]):
                common = {**common, "id": row_id("signature", name), "recorded_at": name["recorded_at"]}
                yield _sheet(row, common, "signed", str(name["done_by"]))


def _sheet(row: Stored, common: dict[str, Any], outcome: e.Outcome, signed_by: str) -> Event:
    return e.Sheet(
        **common,
        skill=row["skill"],
        outcome=outcome,
        signed_by=signed_by,
        material=row["material"],
        family=row["family"],
        ratio=row["ratio"],
        terms=terms_from(row["terms"]),
    )


def _result(row: Stored, common: dict[str, Any]) -> Event:
    return e.CheckResult(
        **common,
        skill=row["skill"],
        passed=row["passed"],
        critical_missed=row["critical_missed"],
        form=row["kind"],
        terms=terms_from(row["terms"]),
    )


def _remark(row: Stored, common: dict[str, Any]) -> Event:
    return e.Remark(
        **common,
        check=f"result:{row['result']}",
        passed=row["passed"],
        critical_missed=row["critical_missed"],
        signed_by=str(row["done_by"]) if row["signed"] else "",
    )


def _withdrawal(row: Stored, common: dict[str, Any]) -> Event:
    return e.Withdrawal(**common, skill=row["skill"], reason=row["note"])


def _withdrawal_end(row: Stored, common: dict[str, Any]) -> Event:
    return e.WithdrawalEnd(
        **common, withdrawal=f"withdrawal:{row['withdrawal']}", reason=row["note"], restores=row["restores"]
    )


def _proof(row: Stored, common: dict[str, Any]) -> Event:
    return e.OutsideProof(
        **common, kind=row["kind"], until=row["until"], seen_by=str(row["paper_seen_by"]), detail=row["detail"] or ""
    )


def _entitlement(row: Stored, common: dict[str, Any]) -> Event:
    return e.Entitlement(
        **common,
        skill=row["skill"],
        starts=row["starts"],
        until=row["until"],
        basis=row["basis"],
        founding=row["founding"],
        granted_by=str(row["done_by"] or ""),
    )


def _entitlement_end(row: Stored, common: dict[str, Any]) -> Event:
    return e.EntitlementEnd(**common, entitlement=f"entitlement:{row['entitlement']}", reason=row["note"])


def _struck(row: Stored, common: dict[str, Any]) -> Event:
    return e.Struck(**common, row=f"{row['of_table']}:{row['of_row']}", reason=row["note"])


_PLAIN: dict[str, Callable[[Stored, dict[str, Any]], Event]] = {
    "withdrawal_end": _withdrawal_end,
    "outside_proof": _proof,
    "entitlement": _entitlement,
    "entitlement_end": _entitlement_end,
}
"""Each table of evidence that standing reads row by row, with what makes an event of a row."""
