"""What waits for a trainer: sheets to watch, parked and observed ones, talks, appeals."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.shop.appeals import AppealView, open_appeals
from quizkit.shop.changes import differs
from quizkit.shop.gates import fails_of
from quizkit.shop.handing import close_overdue
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_pack, in_order, module_of, pack_of, scheme_of
from quizkit.shop.people import PersonView, day_at, people, person_view, trainer
from quizkit.shop.rights import right_of
from quizkit.shop.standings import record_of
from quizkit.standing.awaiting import sheet_awaited
from quizkit.standing.standing import standing_of


@dataclass(frozen=True, slots=True)
class WaitingSheet:
    """Somebody whose check is passed and whose sheet is to come: since and by when. `why` is told for a change."""

    person: int
    name: str
    site: str
    site_title: str
    skill: str
    title: str
    since: dt.date
    until: dt.date | None
    word: str
    entitled: bool
    parked: bool
    why: str


@dataclass(frozen=True, slots=True)
class ParkedSheet:
    """A half-done sheet of this trainer."""

    person: int
    name: str
    skill: str
    title: str
    saved_at: dt.datetime


@dataclass(frozen=True, slots=True)
class ObservedSheet:
    """A sheet that was observed and waits for a signature."""

    sheet: int
    person: int
    name: str
    skill: str
    title: str
    seen_on: dt.date
    observer: str
    entitled: bool


@dataclass(frozen=True, slots=True)
class WaitingTalk:
    """Somebody who failed twice or more, and with whom nobody has talked since; `form` is their last check."""

    person: int
    name: str
    skill: str
    title: str
    fails: int
    last: dt.date
    form: int


@dataclass(frozen=True, slots=True)
class TrainerView:
    """All that waits for a trainer."""

    sheets: tuple[WaitingSheet, ...]
    parked: tuple[ParkedSheet, ...]
    to_sign: tuple[ObservedSheet, ...]
    talks: tuple[WaitingTalk, ...]
    appeals: tuple[AppealView, ...]


def waiting(shop: Shop, by: int, *, now: dt.datetime, site: str = "") -> TrainerView:
    """What waits for a trainer, the most pressing first; of one site where `site` says so."""
    trainer(shop, by)
    close_overdue(shop, now=now)
    here = [one for one in people(shop) if site in ("", one.site)]
    parked = tuple(parked_sheets(shop, by))
    rights = {
        skill: right_of(shop, by, skill, day_at(shop, person_view(shop, by), now)).holds
        for skill in scheme_of(shop).by_id
    }
    sheets = [one for person in here for one in _sheets(shop, by, person, parked, rights, now)]
    talks = [one for person in here for one in _talks(shop, person)]
    return TrainerView(
        sheets=tuple(sorted(sheets, key=lambda one: (one.until or dt.date.max, one.name, one.skill))),
        parked=parked,
        to_sign=tuple(_to_sign(shop, by, {one.person for one in here}, rights)),
        talks=tuple(sorted(talks, key=lambda one: (one.last, one.name))),
        appeals=open_appeals(shop),
    )


def parked_sheets(shop: Shop, by: int) -> list[ParkedSheet]:
    """The half-done sheets of a trainer, the latest first."""
    found = []
    for row in shop.rows("draft", person=by):
        kind, _colon, rest = row["what"].partition(":")
        number, _colon, skill = rest.partition(":")
        if kind == "sheet" and number.isdigit():
            title = module_of(current_pack(shop), skill).scheme.title
            name = person_view(shop, int(number)).name
            found.append(ParkedSheet(int(number), name, skill, title, row["saved_at"]))
    return sorted(found, key=lambda one: one.saved_at, reverse=True)


def _sheets(
    shop: Shop, by: int, person: PersonView, parked: tuple[ParkedSheet, ...], rights: dict[str, bool], now: dt.datetime
) -> list[WaitingSheet]:
    found, scheme, waits = record_of(shop, person.person, now), scheme_of(shop), []
    for module in in_order(current_pack(shop)):
        skill = module.scheme.skill
        if module.sheet is None:
            continue
        awaited, change = sheet_awaited(found, scheme, skill), differs(shop, person.person, skill)
        if awaited is None and change is None:
            continue
        waits.append(
            WaitingSheet(
                person=person.person,
                name=person.name,
                site=person.site,
                site_title=person.site_title,
                skill=skill,
                title=module.scheme.title,
                since=awaited.check.seen_on if awaited else found.on,
                until=awaited.until if awaited else change.until if change else None,
                word=standing_of(found, scheme, skill).word,
                entitled=rights[skill] and person.person != by,
                parked=any((one.person, one.skill) == (person.person, skill) for one in parked),
                why=change.words() if change else "",
            )
        )
    return waits


def _to_sign(shop: Shop, by: int, here: set[int], rights: dict[str, bool]) -> list[ObservedSheet]:
    struck = {row["of_row"] for row in shop.rows("strike", of_table=["sheet", "signature"])}
    signed = {row["sheet"] for row in shop.rows("signature") if row["id"] not in struck}
    rows = [row for row in shop.rows("sheet", outcome="observed") if row["id"] not in signed | struck]
    return [_observed(shop, by, row, rights) for row in rows if row["person"] in here]


def _observed(shop: Shop, by: int, row: Stored, rights: dict[str, bool]) -> ObservedSheet:
    return ObservedSheet(
        sheet=row["id"],
        person=row["person"],
        name=person_view(shop, row["person"]).name,
        skill=row["skill"],
        title=module_of(pack_of(shop, row["pack"]), row["skill"]).scheme.title,
        seen_on=row["seen_on"],
        observer=person_view(shop, row["observer"]).name if row["observer"] else "",
        entitled=rights.get(row["skill"], False) and row["person"] != by,
    )


def _talks(shop: Shop, person: PersonView) -> list[WaitingTalk]:
    found = []
    for module in current_pack(shop).modules:
        fails = fails_of(shop, module, person.person)
        if fails.talk_needed and fails.last is not None:
            skill, title = module.scheme.skill, module.scheme.title
            last = fails.last
            found.append(
                WaitingTalk(person.person, person.name, skill, title, fails.count, last["seen_on"], last["form"])
            )
    return found
