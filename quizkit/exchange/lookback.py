"""A look-back as a table: each thing that is told in a line, with its part, its day, its words and its seal."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Protocol
from zoneinfo import ZoneInfo

from quizkit.exchange.table import Cell, Table
from quizkit.words import _


class Lookback(Protocol):
    """What the view of a look-back tells; the parts hold plain values, as the shop's view names them."""

    @property
    def shop(self) -> str: ...
    @property
    def asked(self) -> Sequence[tuple[str, str]]: ...
    @property
    def jobs(self) -> Sequence[Any]: ...
    @property
    def allowed(self) -> Sequence[Any]: ...
    @property
    def hands(self) -> Sequence[Any]: ...
    @property
    def materials(self) -> Sequence[Any]: ...
    @property
    def others(self) -> Sequence[Any]: ...
    @property
    def position(self) -> int: ...
    @property
    def seal(self) -> str: ...
    @property
    def made_at(self) -> dt.datetime: ...
    @property
    def made_by(self) -> str: ...


@dataclass(frozen=True, slots=True)
class _Line:
    part: str
    what: str
    day: dt.date | None = None
    who: str = ""
    skill: str = ""
    by: str = ""
    recorded: dt.date | None = None
    seal: str = ""

    def cells(self, zone: ZoneInfo) -> tuple[Cell, ...]:
        day, recorded = _day(self.day, zone), _day(self.recorded, zone)
        return (self.part, day, self.who, self.skill, self.what, self.by, recorded, self.seal)


def _day(value: dt.date | None, zone: ZoneInfo) -> dt.date | None:
    """A moment as the day that it has in a zone; a date as it is."""
    return value.astimezone(zone).date() if isinstance(value, dt.datetime) else value


def lookback_table(view: Lookback, zone: str) -> Table:
    """The whole look-back as one table, for a spreadsheet; its days are those of `zone`, as on the page."""
    heads = (_("Part"), _("Day"), _("Who"), _("Skill"), _("What"), _("By"), _("Written down"), _("Seal"))
    return Table(_title(view), heads, tuple(line.cells(ZoneInfo(zone)) for line in _lines(view)))


def lookback_parts(view: Lookback, zone: str) -> tuple[Table, ...]:
    """The same in parts for a terminal, each with the columns that say something in it."""
    whole = lookback_table(view, zone)
    found = []
    for part in dict.fromkeys(row[0] for row in whole.rows):
        rows = [_short(row[1:]) for row in whole.rows if row[0] == part]
        kept = [at for at in range(len(rows[0])) if any(row[at] not in (None, "") for row in rows)]
        heads = tuple(whole.heads[1:][at] for at in kept)
        found.append(Table(str(part), heads, tuple(tuple(row[at] for at in kept) for row in rows)))
    return tuple(found)


def _short(row: Sequence[Cell]) -> tuple[Cell, ...]:
    """A row whose seal is cut to what a person compares by eye."""
    return (*row[:-1], str(row[-1] or "")[:16])


def _title(view: Lookback) -> str:
    return _("Look back: {asked}").format(asked=", ".join(f"{title} {text}" for title, text in view.asked))


def _lines(view: Lookback) -> Iterator[_Line]:
    yield _Line(_("Looked for"), _title(view), view.made_at, by=view.made_by)
    yield _Line(_("Head of the records"), _("row {number}").format(number=view.position), view.made_at, seal=view.seal)
    for job in view.jobs:
        yield from _job(_("Tickets"), job)
    for one in view.allowed:
        words = _("{title}, {material}; as then known: {then}; as now known: {now}")
        told = words.format(title=one.title, material=one.material or "–", then=one.then, now=one.now)
        yield _Line(_("Were they allowed to?"), told, one.day, one.name)
    for hand in view.hands:
        yield from _standings(hand)
    for hand in view.hands:
        yield from _evidence(hand)
    for hand in view.hands:
        yield from _asked(hand)
    for hand in view.hands:
        yield from _measured(hand)
    for one in view.materials:
        fields = "; ".join(f"{title} {value}" for title, value in one.label.lines)
        words = f"{one.label.name}, {one.label.family}, {one.label.ratio}; {fields}"
        yield _Line(_("Shelf in force"), words, one.day, recorded=one.published, seal=one.pack)
    for one in view.others:
        yield from _others(one)


def _job(part: str, job: Any) -> Iterator[_Line]:
    for use in job.uses:
        words = _("ticket {ticket}: {title}; {material}, lots {lot_a} and {lot_b}, {used} used, {billed} billed")
        told = words.format(
            ticket=job.ticket,
            title=job.title,
            material=use.material,
            lot_a=use.lot_a,
            lot_b=use.lot_b,
            used=use.used.text,
            billed=use.billed.text,
        )
        if job.struck:
            told += "; " + _("withdrawn: {why}").format(why=job.struck)
        who = f"{job.name} + {job.beside_name}" if job.beside_name else job.name
        yield _Line(part, told, job.done_on, who, "", job.by, job.recorded_at, job.seal)


def _standings(hand: Any) -> Iterator[_Line]:
    for skill in hand.skills:
        for known, standing in ((_("as then known"), skill.then), (_("as now known"), skill.now)):
            note = f", {standing.note}" if standing.note else ""
            words = f"{known}: {_(standing.word)}{note} ({standing.may})"
            yield _Line(_("Where they stood"), words, hand.day, hand.name, skill.title)


def _evidence(hand: Any) -> Iterator[_Line]:
    for skill in hand.skills:
        for one in skill.evidence:
            row, marks = one.row, []
            if not row.counts:
                marks.append(_("the standing does not rest on it"))
            if not one.known_then:
                marks.append(_("not known on the day"))
            if row.struck:
                marks.append(_("withdrawn: {why}").format(why=row.struck))
            words = "; ".join((row.words, *marks))
            by = f"{row.by}, {row.right}" if row.right else row.by
            yield _Line(_("Evidence"), words, row.when, hand.name, skill.title, by, row.recorded_at, row.seal)
        for lesson in skill.taught:
            read = _("read {day}").format(day=lesson.read_on) if lesson.read_on else _("not marked as read")
            yield _Line(_("Lessons in force"), f"{lesson.title}: {read}", hand.day, hand.name, skill.title)


def _asked(hand: Any) -> Iterator[_Line]:
    for skill in hand.skills:
        for check in skill.checks:
            for item in check.items:
                typed = "; ".join(
                    (f"{part.ask} " if part.ask else "")
                    + _("{typed} ({outcome}; right is {right})").format(
                        typed=part.answer or _("nothing"), outcome=_(part.outcome), right=part.right
                    )
                    for part in item.parts
                )
                words = f"{item.item}. {item.words} → {typed}"
                yield _Line(_("What they were asked"), words, check.day, hand.name, skill.title, seal=check.pack)


def _measured(hand: Any) -> Iterator[_Line]:
    for skill in hand.skills:
        for sheet in skill.sheets:
            for step in sheet.steps:
                word = _("seen") if step.seen else _("not seen")
                yield _Line(
                    _("What was seen"), f"{step.words}: {word}", sheet.seen_on, hand.name, skill.title, sheet.by
                )
            for name, typed, unit in sheet.measures:
                words = f"{name.replace('_', ' ')}: {typed} {unit}".strip()
                yield _Line(_("What was measured"), words, sheet.seen_on, hand.name, skill.title, sheet.instrument)
            for one in sheet.judged:
                held = _("holds") if one.satisfied else _("does not hold")
                words = f"{one.name}: {one.shown} ({one.limits}), {held}"
                yield _Line(_("What was measured"), words, sheet.seen_on, hand.name, skill.title, sheet.by)


def _others(one: Any) -> Iterator[_Line]:
    part = _("Who and what else is touched")
    for person in one.people:
        yield _Line(part, f"{one.words}: {_(person.word)}", None, person.name, person.title)
    for job in one.jobs:
        for line in _job(part, job):
            yield _Line(part, f"{one.words}: {line.what}", line.day, line.who, "", line.by, line.recorded, line.seal)
