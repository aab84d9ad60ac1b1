"""Today's ticket: what is due, what is next, one thing to press."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from quizkit.pack.model import Module
from quizkit.pack.shown import day as day_words
from quizkit.shop.changes import differs
from quizkit.shop.handing import understood
from quizkit.shop.handle import Shop
from quizkit.shop.packs import current_pack
from quizkit.shop.people import PersonView, day_at, here
from quizkit.shop.press import Press
from quizkit.shop.progress import missed, topic_states
from quizkit.shop.strip import ShelfItem, lessons_read, shelf
from quizkit.words import _, ngettext

MINUTES_A_QUESTION = 3


@dataclass(frozen=True, slots=True)
class TodayLine:
    """A line of the ticket: what is due, a soft note, a press or a stamp."""

    text: str
    note: str
    press: Press | None
    stamp: str = ""


@dataclass(frozen=True, slots=True)
class TodayView:
    """The first page: lines in the order of their weight, the one thing to press, the shelf strip."""

    person: int
    name: str
    day: dt.date
    lines: tuple[TodayLine, ...]
    press: Press | None
    shelf: tuple[ShelfItem, ...]


def today(shop: Shop, person: int, *, now: dt.datetime) -> TodayView:
    """Today's ticket of a person: open checks, what comes back, what lapses, sheets to come, and what is next."""
    view, strip = here(shop, person), shelf(shop, person, now=now)
    modules = {module.id: module for module in current_pack(shop).modules}
    lines: list[TodayLine] = []
    for item in strip:
        lines += _open_check(shop, view, item)
    for item in strip:
        lines += _lapsing(item) + _difference(shop, person, item)
    for item in strip:
        lines += _comes_back(shop, person, modules[item.module], item, now)
    for item in strip:
        lines += _sheet(item)
    following = _next(shop, person, strip, modules)
    if following is not None:
        lines.append(following)
    press = next((line.press for line in lines if line.press is not None), None)
    return TodayView(person, view.name, day_at(shop, view, now), tuple(lines), press, strip)


def _open_check(shop: Shop, person: PersonView, item: ShelfItem) -> list[TodayLine]:
    if not item.open_form:
        return []
    form = shop.get("form", item.open_form)
    items = shop.count("form_item", form=item.open_form)
    answered = understood(shop, form)
    text = _("{title}: the check is open, {answered} of {items} answered")
    closes = form["closes_at"].astimezone(ZoneInfo(form["zone"]))
    note = _("it closes {day}, {time}").format(day=day_words(closes.date()), time=f"{closes:%H:%M}")
    press = Press(_("Go on"), "check", skill=item.skill, form=item.open_form)
    return [TodayLine(text.format(title=item.title, answered=answered, items=items), note, press)]


def _lapsing(item: ShelfItem) -> list[TodayLine]:
    if item.standing.word not in ("lapsing", "lapsed"):
        return []
    if item.standing.word == "lapsing":
        ends = day_words(item.standing.ends) if item.standing.ends else ""
        text = _("{title}: your clearance ends on {day}").format(title=item.title, day=ends)
    else:
        text = _("{title}: your clearance has lapsed").format(title=item.title)
    press = None if item.waits else Press(_("Take the check"), "module", skill=item.skill)
    note = ", ".join((*item.standing.because, *item.waits)) if item.standing.word == "lapsing" else item.standing.note
    return [TodayLine(text, note, press, item.standing.word)]


def _difference(shop: Shop, person: int, item: ShelfItem) -> list[TodayLine]:
    change = differs(shop, person, item.skill)
    if change is None:
        return []
    text = _("{title}: {material} has changed. Take the short check and show it to a trainer")
    note = _("by {day}").format(day=day_words(change.until)) if change.until else ""
    press = None if item.waits else Press(_("Take the check"), "module", skill=item.skill)
    return [TodayLine(text.format(title=item.title, material=change.material), note, press)]


def _comes_back(shop: Shop, person: int, module: Module, item: ShelfItem, now: dt.datetime) -> list[TodayLine]:
    wrong = len(missed(shop, person, item.skill))
    ends = item.standing.ends if item.standing.clear else None
    due = [state for state in topic_states(shop, person, module, ends) if state.word(now) == "due"]
    lines = []
    press = Press(_("Practice"), "practice", skill=item.skill)
    if wrong:
        text = ngettext(
            "{title}: one question you missed comes back", "{title}: {count} questions you missed come back", wrong
        )
        lines.append(TodayLine(text.format(title=item.title, count=wrong), _minutes(wrong), press))
    if due:
        text = ngettext("{title}: one topic is due again", "{title}: {count} topics are due again", len(due))
        lines.append(TodayLine(text.format(title=item.title, count=len(due)), _minutes(2 * len(due)), press))
    return lines


def _minutes(questions: int) -> str:
    return _("about {count} minutes").format(count=MINUTES_A_QUESTION * questions)


def _sheet(item: ShelfItem) -> list[TodayLine]:
    """What a passed check still asks for: the trainer's eye, or a need or a paper that is not there yet."""
    if item.standing.word != "check passed":
        return []
    text = (
        _("{title}: check passed. Ask a trainer to watch you at the bench")
        if item.standing.sheet_to_come
        else _("{title}: passed and seen, but not cleared yet")
    )
    return [TodayLine(text.format(title=item.title), item.standing.note, None, "check passed")]


def _next(shop: Shop, person: int, strip: tuple[ShelfItem, ...], modules: dict[str, Module]) -> TodayLine | None:
    """The next step of whoever is learning: the first unread lesson of the first module that nothing holds back."""
    for item in strip:
        if item.standing.word not in ("not started", "learning") or item.open_form:
            continue
        module = modules[item.module]
        done = lessons_read(shop, person, module)
        unread = next((lesson for lesson in module.lessons if lesson.id not in done), None)
        if unread is not None:
            press = Press(_("Read"), "lesson", skill=item.skill, lesson=unread.id)
            return TodayLine(
                _("{title}, next lesson: {lesson}").format(title=item.title, lesson=unread.title), "", press
            )
        if not item.waits:
            press = Press(_("Take the check"), "module", skill=item.skill)
            return TodayLine(_("{title}: all lessons read, the check is next").format(title=item.title), "", press)
    return None
