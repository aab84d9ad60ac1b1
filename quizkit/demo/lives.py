"""What each person does: every step names its moment first, so that all lives run in one order of time."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from zoneinfo import ZoneInfo

from quizkit import shop as deeds
from quizkit.demo import answers
from quizkit.demo.cast import Course, Member
from quizkit.demo.measured import measured
from quizkit.pack.model import Module, Pack
from quizkit.shop import Shop

Life = Iterator[dt.datetime]
"""Yields the moment of the next step, and takes that step when it is asked to go on."""

MOST_MISSED = 3
"""Marks that somebody who passes misses at most; a check has 15 questions or more."""
LATELY = 10
"""Days ago from which on people are taken to have worked at weekends too."""
ANSWERED = 6
"""Questions that are answered in a check that stays open."""


LIFTED = 7
"""The step of the bond's sheet that was not seen where it was refused: the panel stays down after contact."""


@dataclass(slots=True)
class Story:
    """The shop as its lives go on: its people by name, and the clock of its wall."""

    shop: Shop
    pack: Pack
    today: dt.date
    zone: ZoneInfo
    people: dict[str, int] = field(default_factory=dict)
    forms: dict[tuple[str, str], int] = field(default_factory=dict)

    def at(self, ago: int, hour: int, minute: int = 0) -> dt.datetime:
        """A time of the shop's day so many days ago; a weekend long ago is the Friday before it."""
        day = self.today - dt.timedelta(days=ago)
        if ago > LATELY:
            day -= dt.timedelta(days=max(0, day.weekday() - 4))
        return dt.datetime.combine(day, dt.time(hour, minute), self.zone).astimezone(dt.UTC)

    def module(self, skill: str) -> Module:
        """The module of a skill."""
        return next(module for module in self.pack.modules if module.scheme.skill == skill)

    def day(self, now: dt.datetime) -> dt.date:
        """The shop's date at a moment."""
        return now.astimezone(self.zone).date()


def course(story: Story, member: Member, one: Course) -> Life:
    """Somebody goes through a module: lessons, practice, the check, the sheet."""
    chance = random.Random(f"{member.name} {one.skill} {one.day}")
    moment = story.at(one.day, 8)
    if one.lessons:
        for lesson in story.module(one.skill).lessons:
            yield moment
            module, name = lesson.id.split("/")
            deeds.lesson_read(story.shop, story.people[member.name], module, name, now=moment)
            moment += dt.timedelta(minutes=8)
    for _turn in range(one.practice):
        yield moment
        _practise(story, member, one.skill, chance, moment)
        moment += dt.timedelta(minutes=2, seconds=chance.randrange(50))
    if one.check:
        yield from _check(story, member, one, chance)
    if one.sheet is not None:
        yield from _sheets(story, member, one)


def _practise(story: Story, member: Member, skill: str, chance: random.Random, now: dt.datetime) -> None:
    person = story.people[member.name]
    asked = deeds.practise(story.shop, person, skill, now=now)
    answer = answers.right if chance.random() < member.hit else answers.wrong
    deeds.answer_practice(story.shop, person, asked.draw, answer(story.pack, asked.question), now=now)


def _check(story: Story, member: Member, one: Course, chance: random.Random) -> Life:
    shop, person = story.shop, story.people[member.name]
    moment = story.at(one.day - 1, 10, chance.randrange(40))
    yield moment
    form = deeds.start_check(shop, person, one.skill, now=moment)
    story.forms[member.name, one.skill] = form
    item, items, left = 0, 1, MOST_MISSED
    while item < items:
        item += 1
        moment += dt.timedelta(seconds=40 + chance.randrange(80))
        yield moment
        shown = deeds.check_item(shop, person, form, item, now=moment)
        items, view = shown.items, shown.question
        misses = _misses(view, one.check, item, left, chance)
        left -= len(view.parts) if misses else 0
        typed = (answers.wrong if misses else answers.right)(story.pack, view)
        deeds.answer_item(shop, person, form, item, typed, now=moment)
        if one.check == "open" and item == ANSWERED:
            return
    moment += dt.timedelta(minutes=2)
    yield moment
    deeds.hand_in(shop, person, form, now=moment)


def _misses(view: deeds.QuestionView, check: str, item: int, left: int, chance: random.Random) -> bool:
    """Whether a question goes wrong: every other one in a failed check; in a passed one few, and none critical."""
    if check == "failed":
        return item % 2 == 1
    return not view.critical and len(view.parts) <= left and chance.random() < 0.25


def _sheets(story: Story, member: Member, one: Course) -> Life:
    assert one.sheet is not None
    if one.refused is not None:
        moment = story.at(one.refused, 14)
        yield moment
        reason = "The panel was lifted after contact. Practice the dry fit and the clamps first."
        deeds.refuse_sheet(
            story.shop, story.people[one.by], sheet_input(story, member, one, moment, LIFTED), reason, now=moment
        )
    moment = story.at(one.sheet, 14, 30)
    yield moment
    deeds.sign_sheet(story.shop, story.people[one.by], sheet_input(story, member, one, moment), now=moment)


def sheet_input(story: Story, member: Member, one: Course, now: dt.datetime, unseen: int = 0) -> deeds.SheetInput:
    """A sheet filled in at the bench; all steps seen but the one that is `unseen`."""
    person = story.people[member.name]
    view = deeds.open_sheet(story.shop, story.people[one.by], person, one.skill, now=now)
    row = story.pack.shelf.row(one.material)
    assert row is not None
    steps = [step.number for step in view.steps]
    return deeds.SheetInput(
        person=person,
        skill=one.skill,
        material=next(pick.id for pick in view.materials if pick.name == one.material),
        seen=frozenset(steps) - {unseen},
        measures=dict(measured(one.skill, row)),
        instrument="scale 2, 0.1 g" if any(each.unit == "g" for each in view.measures) else "tape, gauge and scale",
        seen_on=story.day(now),
        note="",
    )
