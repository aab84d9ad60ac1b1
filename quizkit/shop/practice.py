"""Practice: the next variant that helps, the answer at once, nothing that counts towards a clearance."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.pack.model import Pack, Question
from quizkit.pack.variant import Graded, Variant
from quizkit.scoring.marks import show_mark
from quizkit.scoring.verdict import VERSION
from quizkit.shop import asking
from quizkit.shop.asking import QuestionView, ToldPart
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_hash, current_pack, for_practice, lesson_with, module_of, pack_of, question_of
from quizkit.shop.people import day_at, here
from quizkit.shop.press import Press
from quizkit.shop.progress import weakest, why_asked
from quizkit.shop.refusal import Forbidden, Refusal
from quizkit.shop.walks import next_for
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Asked:
    """A practice question put in front of a person; `draw` names it, `why` says why this one."""

    draw: str
    question: QuestionView
    why: str
    skill: str
    title: str


@dataclass(frozen=True, slots=True)
class Told:
    """A practice question with what the answer turned out to be. With `unread` nothing was stored or used up."""

    draw: str
    question: QuestionView
    parts: tuple[ToldPart, ...]
    marks: str
    out_of: int
    right: bool
    unread: bool
    working_html: str
    next: Press
    lesson_again: str
    skill: str
    title: str


def practise(shop: Shop, person: int, skill: str, *, now: dt.datetime, question: str = "", topic: str = "") -> Asked:
    """Put the next question of a skill in front of a person: weakest topic first, missed ones again.

    `question` asks for that one in its next numbers, `topic` for one of that topic. Asked again before an answer, it is
    the same. Refuses a question that is kept for the check.
    """
    with shop.deed(now):
        view = here(shop, person)
        pack = current_pack(shop)
        waiting = _unanswered(shop, pack, person, skill, question, topic)
        if waiting is not None:
            return _asked(shop, waiting)
        one = _chosen(shop, pack, person, skill, question, topic, now)
        day = day_at(shop, view, now)
        number = next_for(shop, pack, person, one, day)
        if number is None:
            raise Refusal(
                _("The shop stocks none of the materials that this question is about"), _("take another question")
            )
        count = len(shop.rows("draw", person=person))
        draw = shop.add(
            "draw",
            by=person,
            seen_on=day,
            person=person,
            skill=skill,
            question=one.id,
            question_hash=asking.question_hash(one),
            pack=current_hash(shop),
            variant=number,
            ordering=asking.arrangement(one, "practice", person, count, one.id),
        )
        return _asked(shop, shop.get("draw", draw))


def answer_practice(shop: Shop, person: int, draw: str, answers: Mapping[str, str], *, now: dt.datetime) -> Told:
    """Mark the answer to a practice question and keep it.

    An answer that was not understood is told and not kept. A second answer to the same draw changes nothing: the first
    is told again.
    """
    with shop.deed(now):
        stored = _draw(shop, person, draw)
        given = shop.row("practice", draw=stored["id"])
        if given is not None:
            return _told(shop, stored, given["typed"])
        view = here(shop, person)
        told = _told(shop, stored, answers)
        if told.unread:
            return told
        variant = _variant(shop, stored)
        graded = variant.grade(answers)
        shop.add(
            "practice",
            by=person,
            seen_on=day_at(shop, view, now),
            draw=stored["id"],
            person=person,
            skill=stored["skill"],
            question=stored["question"],
            question_hash=stored["question_hash"],
            pack=stored["pack"],
            variant=stored["variant"],
            ordering=stored["ordering"],
            typed=dict(answers),
            givens=asking.givens_row(variant),
            verdict=asking.verdict_row(graded),
            marks=str(graded.marks),
            out_of=str(graded.out_of),
            marking=VERSION,
        )
        return told


def practice_view(shop: Shop, person: int, draw: str, *, now: dt.datetime) -> Asked | Told:
    """A practice question as it stands: still asked, or told."""
    stored = _draw(shop, person, draw)
    given = shop.row("practice", draw=stored["id"])
    return _asked(shop, stored) if given is None else _told(shop, stored, given["typed"])


def _unanswered(shop: Shop, pack: Pack, person: int, skill: str, question: str, topic: str) -> Stored | None:
    """The last draw that fits what is asked for and still waits for its answer."""
    last = shop.row("draw", person=person, skill=skill, **({"question": question} if question else {}))
    if last is None or shop.row("practice", draw=last["id"]) is not None:
        return None
    if last["pack"] != current_hash(shop):
        return None
    return last if not topic or pack.question(last["question"]).topic == topic else None


def _chosen(shop: Shop, pack: Pack, person: int, skill: str, question: str, topic: str, now: dt.datetime) -> Question:
    """The question to ask."""
    module = module_of(pack, skill)
    if question:
        one = question_of(pack, question)
        if one.use == "check":
            raise Refusal(_("This question is kept for the check"), _("practice another one"))
        return one
    pool = [one for one in for_practice(module) if not topic or one.topic == topic]
    if not pool:
        raise Refusal(_("There is nothing to practice here yet"), _("read the lessons"))
    return weakest(shop, person, module, pool, now)


def _draw(shop: Shop, person: int, draw: str) -> Stored:
    stored = shop.get("draw", draw)
    if stored["person"] != person:
        raise Forbidden(_("This is somebody else's practice"), _("start your own"))
    return stored


def _variant(shop: Shop, stored: Stored) -> Variant:
    return asking.variant_of(pack_of(shop, stored["pack"]), stored["question"], stored["variant"], stored["ordering"])


def _asked(shop: Shop, stored: Stored) -> Asked:
    pack = pack_of(shop, stored["pack"])
    title = module_of(pack, stored["skill"]).scheme.title
    view = asking.question_view(pack, _variant(shop, stored))
    return Asked(str(stored["id"]), view, why_asked(shop, pack, stored), stored["skill"], title)


def _told(shop: Shop, stored: Stored, typed: Mapping[str, str]) -> Told:
    pack, variant = pack_of(shop, stored["pack"]), _variant(shop, stored)
    graded: Graded = variant.grade(typed)
    unread = asking.unread_parts(graded)
    module = module_of(pack, stored["skill"])
    lesson = lesson_with(module, stored["question"])
    return Told(
        draw=str(stored["id"]),
        question=asking.question_view(pack, variant, typed, unread),
        parts=() if unread else asking.told_parts(variant, graded, typed),
        marks=show_mark(graded.marks, pack.scheme.mark),
        out_of=graded.out_of,
        right=graded.right,
        unread=bool(unread),
        working_html="" if unread else graded.working,
        next=Press(_("Next question"), "practice", skill=stored["skill"]),
        lesson_again=lesson.id if lesson and not graded.right else "",
        skill=stored["skill"],
        title=module.scheme.title,
    )
