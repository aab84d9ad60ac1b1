"""The shelf strip: a label a module, with the standing, the scale of practice, and why the check waits."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.pack.model import Module, Pack
from quizkit.shop.gates import CheckGate, gate
from quizkit.shop.handing import close_overdue
from quizkit.shop.handle import Shop
from quizkit.shop.packs import current_pack, in_order, scheme_of
from quizkit.shop.progress import tenths
from quizkit.shop.standings import StandingView, record_of, standing_view
from quizkit.standing.record import Record
from quizkit.standing.standing import standing_of
from quizkit.words import _, ngettext


@dataclass(frozen=True, slots=True)
class ShelfItem:
    """A module on the strip. `solid`, `due` (shaky ones too) and `empty` are tenths, ten in all; `waits` says why the
    check waits.
    """

    module: str
    skill: str
    title: str
    standing: StandingView
    note: str
    solid: int
    due: int
    empty: int
    lessons_read: int
    lessons: int
    waits: tuple[str, ...]
    open_form: int


def shelf(shop: Shop, person: int, *, now: dt.datetime) -> tuple[ShelfItem, ...]:
    """The strip of a person, in the order in which modules are taken."""
    close_overdue(shop, now=now, person=person)
    pack, found = current_pack(shop), record_of(shop, person, now)
    return tuple(shelf_item(shop, pack, module, found, now) for module in in_order(pack))


def shelf_item(shop: Shop, pack: Pack, module: Module, found: Record, now: dt.datetime) -> ShelfItem:
    """One label of the strip."""
    person = int(found.person)
    standing = standing_view(standing_of(found, scheme_of(shop), module.scheme.skill))
    before = gate(shop, pack, module, person, found, now)
    read = len(lessons_read(shop, person, module))
    solid, due, empty = tenths(shop, person, module, standing.ends if standing.clear else None, now)
    return ShelfItem(
        module=module.id,
        skill=module.scheme.skill,
        title=module.scheme.title,
        standing=standing,
        note=_note(standing, before, read, len(module.lessons)),
        solid=solid,
        due=due,
        empty=empty,
        lessons_read=read,
        lessons=len(module.lessons),
        waits=before.why,
        open_form=before.open_form,
    )


def lessons_read(shop: Shop, person: int, module: Module) -> set[str]:
    """The lessons of a module that a person has marked as read."""
    there = {lesson.id for lesson in module.lessons}
    return {row["lesson"] for row in shop.rows("reading", person=person, module=module.id)} & there


def _note(standing: StandingView, before: CheckGate, read: int, lessons: int) -> str:
    """The line under the stamp: an open check first, then what the standing says, then the lessons."""
    if before.open_form:
        return _("check open")
    if standing.word in ("not started", "learning") and not standing.because:
        if before.why and standing.word == "not started":
            return before.why[0]
        text = ngettext("{read} of {count} lesson", "{read} of {count} lessons", lessons)
        return text.format(read=read, count=lessons)
    return standing.note
