"""Appeals: somebody asks for a second look, and somebody else than the one who marked or signed answers."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.shop.handle import Shop, Stored, note
from quizkit.shop.packs import module_of, pack_of
from quizkit.shop.people import day_at, here, people, person_view, trainer
from quizkit.shop.refusal import Forbidden, Refusal, Unknown
from quizkit.shop.whose import owned
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class AppealView:
    """An appeal, and its answer where there is one. `about` is "form:12" or "sheet:4"."""

    number: int
    person: int
    name: str
    about: str
    skill: str
    title: str
    words: str
    made_on: dt.date
    answered: bool
    answer: str
    upheld: bool
    by: str


def appeal(shop: Shop, person: int, about: str, words: str, *, now: dt.datetime) -> int:
    """Ask for a second look at one's own check ("form:12") or sheet ("sheet:4"). One open appeal about each."""
    with shop.deed(now):
        view = here(shop, person)
        table, stored = _about(shop, about)
        if stored["person"] != person:
            raise Forbidden(_("This is somebody else's"), _("they must ask themselves"))
        if table == "form" and shop.row("result", form=stored["id"]) is None:
            raise Refusal(_("This check is still open"), _("hand it in first"))
        if any(not one.answered for one in appeals_about(shop, **{table: stored["id"]})):
            raise Refusal(_("You have asked for this already"), _("the answer is to come"))
        return shop.add(
            "appeal",
            by=person,
            seen_on=day_at(shop, view, now),
            person=person,
            form=stored["id"] if table == "form" else None,
            sheet=stored["id"] if table == "sheet" else None,
            note=note(words, needed=True),
        )


def answer_appeal(shop: Shop, by: int, appeal: int, words: str, upheld: bool, *, now: dt.datetime) -> int:
    """Answer an appeal, with reasons; where the shop has somebody else, not the one who marked or signed."""
    with shop.deed(now):
        view = trainer(shop, by)
        stored = shop.get("appeal", appeal)
        if stored["person"] == by:
            raise Forbidden(_("Nobody answers their own appeal"), _("another trainer or manager does"))
        if shop.row("appeal_answer", appeal=appeal) is not None:
            raise Refusal(_("This appeal has been answered"), _("see the answer"))
        trainers = {one.person for one in people(shop) if one.role in ("trainer", "manager")}
        involved = _involved(shop, stored)
        if by in involved and trainers - involved - {stored["person"]}:
            raise Forbidden(_("You marked or signed this yourself"), _("another trainer or manager answers"))
        return shop.add(
            "appeal_answer",
            by=by,
            seen_on=day_at(shop, view, now),
            appeal=appeal,
            person=stored["person"],
            upheld=upheld,
            note=note(words, needed=True),
        )


def appeals_about(shop: Shop, **about: int) -> tuple[AppealView, ...]:
    """The appeals about a form (`form=`) or a sheet (`sheet=`)."""
    return tuple(_view(shop, row) for row in shop.rows("appeal", **about))


def open_appeals(shop: Shop) -> tuple[AppealView, ...]:
    """The appeals that wait for an answer."""
    return tuple(view for row in shop.rows("appeal") if not (view := _view(shop, row)).answered)


def _about(shop: Shop, about: str) -> tuple[str, Stored]:
    table, _colon, number = about.partition(":")
    if table not in ("form", "sheet"):
        raise Unknown(_("There is nothing like that to appeal against"), _("go back to the result or the sheet"))
    stored = shop.get(table, number)
    return table, owned(shop, stored) if table == "form" else stored


def _involved(shop: Shop, stored: Stored) -> set[int]:
    """Who marked or signed what an appeal is about."""
    if stored["sheet"] is not None:
        sheet = shop.get("sheet", stored["sheet"])
        names = shop.rows("signature", sheet=sheet["id"])
        return {sheet["done_by"], sheet["observer"], *(row["done_by"] for row in names)} - {None}
    marked = (*shop.rows("result", form=stored["form"]), *shop.rows("remark", form=stored["form"]))
    return {row["done_by"] for row in marked} - {None}


def _view(shop: Shop, row: Stored) -> AppealView:
    table = "form" if row["form"] is not None else "sheet"
    about = shop.get(table, row[table])
    answer = shop.row("appeal_answer", appeal=row["id"])
    return AppealView(
        number=row["id"],
        person=row["person"],
        name=person_view(shop, row["person"]).name,
        about=f"{table}:{about['id']}",
        skill=about["skill"],
        title=module_of(pack_of(shop, about["pack"]), about["skill"]).scheme.title,
        words=row["note"],
        made_on=row["seen_on"],
        answered=answer is not None,
        answer=answer["note"] if answer else "",
        upheld=bool(answer and answer["upheld"]),
        by=person_view(shop, answer["done_by"]).name if answer else "",
    )
