"""A cell of the matrix opened: the standing, the evidence behind it, what was taught, and what may be done about it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.shop.chain import ChainRow, chain
from quizkit.shop.changes import differs
from quizkit.shop.crews import day_of, day_over, rows_known
from quizkit.shop.gates import CheckGate, gate
from quizkit.shop.handing import close_overdue
from quizkit.shop.handle import Shop
from quizkit.shop.overrides import standing_withdrawal
from quizkit.shop.packs import current_pack, module_of, pack_on, scheme_on
from quizkit.shop.people import may_see, person_view
from quizkit.shop.rights import founding_words, right_of
from quizkit.shop.standings import StandingView, record_of, standing_view
from quizkit.shop.strip import lessons_read
from quizkit.standing.record import record
from quizkit.standing.rights import founded_on
from quizkit.standing.standing import Standing, standing_of


@dataclass(frozen=True, slots=True)
class Taught:
    """A lesson of the skill, and whether the person marked it as read."""

    lesson: str
    title: str
    read: bool


@dataclass(frozen=True, slots=True)
class CellView:
    """A person's skill on a day, with all that stands behind it.

    `rests_on_founding` are the founding entitlements on which its signatures rest; `deeds` what the viewer may do here:
    "sheet", "talk", "lift", "withdraw", "end withdrawal". `withdrawal` is the number of the one that stands, or 0.
    `again` is what a large change of product still asks of them today, in words, or "".
    """

    person: int
    name: str
    site_title: str
    skill: str
    title: str
    day: dt.date
    known: str
    standing: StandingView
    chain: tuple[ChainRow, ...]
    rests_on_founding: tuple[str, ...]
    taught: tuple[Taught, ...]
    gate: CheckGate
    withdrawal: int
    again: str
    deeds: tuple[str, ...]


def cell(
    shop: Shop,
    viewer: int,
    person: int,
    skill: str,
    *,
    now: dt.datetime,
    as_of: dt.date | None = None,
    known: str = "now",
) -> CellView:
    """What stands behind a person's standing in a skill, on a day, as known now or then."""
    may_see(shop, viewer, person)
    close_overdue(shop, now=now, person=person)
    day, view = day_of(shop, now, as_of), person_view(shop, person)
    pack, scheme = pack_on(shop, day), scheme_on(shop, day)
    module = module_of(pack, skill)
    rows = rows_known(shop, day, known)
    standing = standing_of(record(rows, scheme, str(person), day, [skill]), scheme, skill)
    until = now if known == "now" else min(now, day_over(shop, day))
    done, open_one = lessons_read(shop, person, module), standing_withdrawal(shop, person, skill)
    today = current_pack(shop)
    before = gate(shop, today, module_of(today, skill), person, record_of(shop, person, now), now)
    return CellView(
        person=person,
        name=view.name,
        site_title=view.site_title,
        skill=skill,
        title=module.scheme.title,
        day=day,
        known=known,
        standing=standing_view(standing),
        chain=chain(shop, person, skill, _counting(standing), day, until),
        rests_on_founding=founding_words(shop, founded_on(rows, scheme, str(person), skill, day)),
        taught=tuple(Taught(lesson.id, lesson.title, lesson.id in done) for lesson in module.lessons),
        gate=before,
        withdrawal=open_one["id"] if open_one else 0,
        again=change.words() if (change := differs(shop, person, skill)) else "",
        deeds=_deeds(shop, viewer, person, skill, day, before, open_one is not None, module.sheet is not None),
    )


def _counting(standing: Standing) -> frozenset[str]:
    return frozenset(standing.evidence) | {one.sheet for one in standing.endorsements}


def _deeds(
    shop: Shop, viewer: int, person: int, skill: str, day: dt.date, before: CheckGate, withdrawn: bool, sheet: bool
) -> tuple[str, ...]:
    """What the viewer may do about a cell."""
    looking = person_view(shop, viewer)
    if viewer == person or looking.role not in ("trainer", "manager"):
        return ()
    deeds = ["sheet"] if sheet and right_of(shop, viewer, skill, day, person).holds else []
    deeds += ["talk"] if before.talk_needed else []
    deeds += ["lift"] if before.until is not None else []
    if withdrawn:
        return (*deeds, "end withdrawal") if looking.role == "manager" else tuple(deeds)
    return (*deeds, "withdraw")
