"""One person before a job that has been: where they stood that day, what they were taught, asked, and seen to do."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from quizkit.pack.model import Module, Pack
from quizkit.scoring.marks import show_mark
from quizkit.shop import asking
from quizkit.shop.asking import PartView
from quizkit.shop.chain import ChainRow, chain
from quizkit.shop.crews import day_over
from quizkit.shop.forms import Item, form_of, items_of
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_pack, module_of, pack_of, publication_on, scheme_in
from quizkit.shop.rights import founding_words
from quizkit.shop.signing import SheetRecord, sheet_record
from quizkit.shop.standings import StandingView, standing_view
from quizkit.standing.counting import by_person, known_by
from quizkit.standing.events import Event
from quizkit.standing.record import record
from quizkit.standing.rights import founded_on
from quizkit.standing.standing import Standing, standing_of
from quizkit.words import _

_FIGURE = re.compile(r'<figure data-figure="(?P<name>[a-z_]+)" data-values="(?P<values>[^"]*)"></figure>')


@dataclass(frozen=True, slots=True)
class EvidenceThen:
    """A row of evidence seen by a day; `known_then` is whether it had been written down by the end of that day."""

    row: ChainRow
    known_then: bool


@dataclass(frozen=True, slots=True)
class AskedPart:
    """What one part of a question asked, what it got for an answer, and what would have been right.

    `ask` is what it asked, nothing where the question itself says it. `typed` is what was typed; `answer` and `right`
    are told in the words of the options, where there are any.
    """

    name: str
    ask: str
    typed: str
    answer: str
    right: str
    outcome: str


@dataclass(frozen=True, slots=True)
class AskedItem:
    """A question of a check as it was asked, in words with its numbers; `prompt_html` has the places of pictures."""

    item: int
    question: str
    prompt_html: str
    words: str
    critical: bool
    marks: str
    parts: tuple[AskedPart, ...]


@dataclass(frozen=True, slots=True)
class AskedCheck:
    """A check, whole: every question as it was asked and answered. `pack` is the hash of the lessons in force."""

    form: int
    kind: str
    day: dt.date
    passed: bool
    marks: str
    out_of: str
    by_hand: bool
    pack: str
    items: tuple[AskedItem, ...]


@dataclass(frozen=True, slots=True)
class TaughtThen:
    """A lesson in force on the day; `read_on` is when the person marked it read, by that day, else None.

    `changed` says that its text is another one today.
    """

    lesson: str
    title: str
    read_on: dt.date | None
    changed: bool


@dataclass(frozen=True, slots=True)
class SkillThen:
    """Where somebody stood with a skill on a day, as then known and as now known, and on what.

    `pack` is the hash of the lessons in force that day.
    """

    skill: str
    title: str
    then: StandingView
    now: StandingView
    evidence: tuple[EvidenceThen, ...]
    checks: tuple[AskedCheck, ...]
    sheets: tuple[SheetRecord, ...]
    pack: str
    taught: tuple[TaughtThen, ...]
    founding: tuple[str, ...]

    @property
    def differs(self) -> bool:
        """Whether what was written down later changed the picture."""
        return (self.then.word, self.then.ends) != (self.now.word, self.now.ends)


@dataclass(frozen=True, slots=True)
class Hand:
    """Somebody who had a hand in it. `part` is "did it", "beside" or "asked"; `tickets` those of that day."""

    person: int
    name: str
    role: str
    site_title: str
    left: dt.date | None
    day: dt.date
    part: str
    tickets: tuple[str, ...]
    skills: tuple[SkillThen, ...]


@dataclass(frozen=True, slots=True)
class Past:
    """A day that is looked back on, with all evidence there is now: what several people's standings are read from.

    `end` is its last moment, `hash` the pack in force on it; `rows` are everybody's, `by_person` each one's own.
    """

    day: dt.date
    end: dt.datetime
    hash: str
    rows: tuple[Event, ...]
    by_person: Mapping[str, tuple[Event, ...]]


def past_of(shop: Shop, day: dt.date, rows: tuple[Event, ...]) -> Past:
    """A day with the pack in force on it; `rows` is all evidence."""
    return Past(day, day_over(shop, day), publication_on(shop, day)["pack"], rows, by_person(rows))


def skills_then(
    shop: Shop, viewer: int, person: int, skills: Iterable[str], past: Past, now: dt.datetime
) -> tuple[SkillThen, ...]:
    """A person's skills on a day, by the settings and lessons in force then; those of no use to them left out."""
    pack = pack_of(shop, past.hash)
    there = {module.scheme.skill for module in pack.modules}
    return tuple(_skill(shop, viewer, person, pack, skill, past, now) for skill in skills if skill in there)


def _skill(shop: Shop, viewer: int, person: int, pack: Pack, skill: str, past: Past, now: dt.datetime) -> SkillThen:
    rows, scheme = past.by_person.get(str(person), ()), scheme_in(shop, past.hash)
    then, known = (
        standing_of(record(each, scheme, str(person), past.day, [skill]), scheme, skill)
        for each in (known_by(rows, past.end), rows)
    )
    module, counting = module_of(pack, skill), counting_rows(then) | counting_rows(known)
    evidence = chain(shop, person, skill, counting, past.day, now)
    founded = founded_on(past.rows, scheme, str(person), skill, past.day)
    return SkillThen(
        skill=skill,
        title=module.scheme.title,
        then=standing_view(then),
        now=standing_view(known),
        evidence=tuple(EvidenceThen(row, row.recorded_at <= past.end) for row in evidence),
        checks=_checks(shop, evidence),
        sheets=_sheets(shop, viewer, evidence, now),
        pack=past.hash,
        taught=_taught(shop, person, module, past.end),
        founding=founding_words(shop, founded),
    )


def counting_rows(one: Standing) -> frozenset[str]:
    """The ids of the rows on which a standing rests, those of its endorsements among them."""
    return frozenset(one.evidence) | {each.sheet for each in one.endorsements}


def _resting(evidence: Iterable[ChainRow], kinds: tuple[str, ...]) -> list[ChainRow]:
    """The rows of some kinds that count; where none does, the last of them, since it was what there was."""
    rows = [row for row in evidence if row.kind in kinds]
    return [row for row in rows if row.counts] or rows[-1:]


def _checks(shop: Shop, evidence: Iterable[ChainRow]) -> tuple[AskedCheck, ...]:
    results = [shop.get("result", row.id.partition(":")[2]) for row in _resting(evidence, ("result",))]
    return tuple(_check(shop, row) for row in results)


def _check(shop: Shop, result: Stored) -> AskedCheck:
    form = form_of(shop, result["form"])
    pack = pack_of(shop, form["pack"])
    return AskedCheck(
        form=form["id"],
        kind=form["kind"],
        day=result["seen_on"],
        passed=result["passed"],
        marks=show_mark(Fraction(result["marks"]), pack.scheme.mark),
        out_of=result["out_of"],
        by_hand=form["paper"],
        pack=form["pack"],
        items=tuple(_item(pack, one) for one in items_of(shop, form)),
    )


def _item(pack: Pack, one: Item) -> AskedItem:
    graded, question, shown = one.graded(), one.variant.question, asking.question_view(pack, one.variant)
    parts = {part.name: part for part in shown.parts}
    typed = {name: one.typed.get(name, "") for name in graded.parts}
    return AskedItem(
        item=one.number,
        question=question.id,
        prompt_html=shown.prompt_html,
        words=asking.words_of(_FIGURE.sub(_pictured, shown.prompt_html)),
        critical=asking.is_critical(question),
        marks=f"{show_mark(graded.marks, pack.scheme.mark)} / {graded.out_of}",
        parts=tuple(
            AskedPart(
                name,
                asking.words_of(parts[name].ask_html),
                typed[name],
                _said(parts[name], typed[name]),
                _said(parts[name], verdict.right),
                verdict.outcome,
            )
            for name, verdict in graded.parts.items()
        ),
    )


def _pictured(place: re.Match[str]) -> str:
    """A picture of a question in words: what it shows, and its numbers."""
    name = place["name"].replace("_", " ")
    return f"<p>{_('(picture: {name}, {values})').format(name=name, values=place['values'])}</p>"


def _said(part: PartView, typed: str) -> str:
    """An answer in words: options by what they say, a match pair by pair, anything else as it was typed."""
    if part.kind == "number":
        return typed
    options = {str(one.number): asking.words_of(one.html) for one in part.options}
    if part.kind == "match":
        targets = {one.letter: asking.words_of(one.html) for one in part.targets}
        pairs = re.findall(r"([0-9]+) ?([a-z])", typed.lower())
        return "; ".join(f"{options.get(left, left)}: {targets.get(to, to)}" for left, to in pairs)
    mark = " → " if part.kind == "order" else "; "
    return mark.join(options.get(number, number) for number in re.findall(r"[0-9]+", typed))


def _sheets(shop: Shop, viewer: int, evidence: Iterable[ChainRow], now: dt.datetime) -> tuple[SheetRecord, ...]:
    links = [row.link for row in _resting(evidence, ("sheet", "signature"))]
    numbers = dict.fromkeys(int(link.partition(":")[2]) for link in links)
    return tuple(sheet_record(shop, viewer, number, now=now) for number in numbers)


def _taught(shop: Shop, person: int, module: Module, end: dt.datetime) -> tuple[TaughtThen, ...]:
    read = {row["lesson"]: row["read_at"] for row in shop.rows("reading", person=person, module=module.id)}
    today = {lesson.id: lesson.body for each in current_pack(shop).modules for lesson in each.lessons}
    return tuple(
        TaughtThen(
            lesson.id,
            lesson.title,
            read[lesson.id].date() if lesson.id in read and read[lesson.id] <= end else None,
            today.get(lesson.id) != lesson.body,
        )
        for lesson in module.lessons
    )
