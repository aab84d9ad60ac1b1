"""A module and its lessons as their reader sees them."""

from __future__ import annotations

import base64
import datetime as dt
from collections import Counter
from dataclasses import dataclass

from quizkit.pack.html import render
from quizkit.pack.model import Lesson, Module, Pack
from quizkit.pack.nodes import Element, Node
from quizkit.pack.shown import lesson_figure
from quizkit.pack.variant import numbers
from quizkit.quiz.walk import keyed, places
from quizkit.shop import asking
from quizkit.shop.asking import QuestionView
from quizkit.shop.gates import CheckGate, gate
from quizkit.shop.handing import close_overdue, understood
from quizkit.shop.handle import Shop
from quizkit.shop.label import invented
from quizkit.shop.packs import current_pack, for_practice, lesson_of, module_named, scheme_of
from quizkit.shop.people import day_at, here
from quizkit.shop.progress import topic_states
from quizkit.shop.refusal import Unknown
from quizkit.shop.standings import StandingView, record_of, standing_view
from quizkit.shop.strip import lessons_read
from quizkit.standing.record import Record
from quizkit.standing.spans import holding
from quizkit.standing.standing import standing_of
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class NeedView:
    """A skill that comes first, and whether it is cleared."""

    skill: str
    title: str
    word: str
    met: bool


@dataclass(frozen=True, slots=True)
class ProofNeed:
    """An outside proof that being cleared asks for, and whether one is in date."""

    kind: str
    title: str
    met: bool
    until: dt.date | None


@dataclass(frozen=True, slots=True)
class LessonLine:
    """A lesson in the list of its module."""

    lesson: str
    title: str
    read: bool
    questions: int


@dataclass(frozen=True, slots=True)
class TopicLine:
    """A topic with how solid it is: "solid", "shaky", "due" or "not yet shown"."""

    topic: str
    title: str
    word: str
    questions: int


@dataclass(frozen=True, slots=True)
class ModuleView:
    """One module for one person."""

    module: str
    skill: str
    title: str
    minutes: int
    practical: bool
    standing: StandingView
    needs: tuple[NeedView, ...]
    proofs: tuple[ProofNeed, ...]
    lessons: tuple[LessonLine, ...]
    topics: tuple[TopicLine, ...]
    check: CheckGate
    answered: int
    """Of the questions of an open check, those with an answer that was understood."""


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a lesson: "text" or "caution" with its HTML, or "question" with a question in place."""

    kind: str
    html: str
    question: QuestionView | None = None


@dataclass(frozen=True, slots=True)
class LessonView:
    """A lesson; `before` and `after` are the ids of its neighbours, or None."""

    module: str
    lesson: str
    title: str
    module_title: str
    skill: str
    body: tuple[Block, ...]
    before: str | None
    after: str | None
    invented: bool
    read: bool


def module_view(shop: Shop, person: int, module: str, *, now: dt.datetime) -> ModuleView:
    """A module as a person sees it. Raises Unknown."""
    close_overdue(shop, now=now, person=person)
    pack = current_pack(shop)
    one, found = module_named(pack, module), record_of(shop, person, now)
    done, own = lessons_read(shop, person, one), standing_of(found, scheme_of(shop), one.scheme.skill)
    count = Counter(question.topic for question in for_practice(one))
    before = gate(shop, pack, one, person, found, now)
    return ModuleView(
        module=one.id,
        skill=one.scheme.skill,
        title=one.scheme.title,
        minutes=one.scheme.minutes,
        practical=one.scheme.practical,
        standing=standing_view(own),
        needs=_needs(shop, one, found),
        proofs=_proofs(shop, one, found),
        lessons=tuple(LessonLine(each.id, each.title, each.id in done, len(each.questions)) for each in one.lessons),
        topics=tuple(
            TopicLine(state.topic, state.topic.replace("-", " "), state.word(now), count[state.topic])
            for state in topic_states(shop, person, one, own.until if own.clear else None)
        ),
        check=before,
        answered=understood(shop, shop.get("form", before.open_form)) if before.open_form else 0,
    )


def lesson_view(shop: Shop, person: int, module: str, lesson: str, *, now: dt.datetime) -> LessonView:
    """A lesson with its cautions, pictures and questions in place. Raises Unknown.

    A question stands with the first of its variants that the shop stocks today; to answer it, it is practised.
    """
    pack, view = current_pack(shop), here(shop, person)
    one = module_named(pack, module)
    page = lesson_of(one, lesson)
    place = one.lessons.index(page)
    return LessonView(
        module=one.id,
        lesson=page.id,
        title=page.title,
        module_title=one.scheme.title,
        skill=one.scheme.skill,
        body=blocks_of(pack, page, person, day_at(shop, view, now)),
        before=one.lessons[place - 1].id if place else None,
        after=one.lessons[place + 1].id if place + 1 < len(one.lessons) else None,
        invented=invented(pack),
        read=page.id in lessons_read(shop, person, one),
    )


def lesson_read(shop: Shop, person: int, module: str, lesson: str, *, now: dt.datetime) -> None:
    """Note that a person has read a lesson."""
    one = module_named(current_pack(shop), module)
    page = lesson_of(one, lesson)
    with shop.deed(now):
        here(shop, person)
        shop.records.keep("reading", person=person, module=one.id, lesson=page.id, read_at=now)


def lesson_image(shop: Shop, module: str, name: str) -> tuple[bytes, str]:
    """A picture beside a lesson with its media type. Raises Unknown."""
    for image in module_named(current_pack(shop), module).images:
        if name == image.path:
            return base64.b64decode(image.data), image.mime
    raise Unknown(_("There is no picture '{name}'").format(name=name), _("go back to the lesson"))


def _needs(shop: Shop, module: Module, found: Record) -> tuple[NeedView, ...]:
    scheme = scheme_of(shop)
    standings = [(need, standing_of(found, scheme, need)) for need in module.scheme.needs]
    return tuple(NeedView(need, scheme.skill_title(need), one.word, one.clear) for need, one in standings)


def _proofs(shop: Shop, module: Module, found: Record) -> tuple[ProofNeed, ...]:
    scheme, needed = scheme_of(shop), []
    for kind in module.scheme.proofs:
        span = holding(found.proof_days(kind), found.on)
        needed.append(ProofNeed(kind, scheme.proof_title(kind), span is not None, span[1] if span else None))
    return tuple(needed)


def blocks_of(pack: Pack, lesson: Lesson, person: int, day: dt.date) -> tuple[Block, ...]:
    """A lesson cut at its cautions and questions, text between them kept together, as a person meets it on a day."""
    blocks: list[Block] = []
    run: list[Node] = []
    for node in (*lesson.body, None):
        special = isinstance(node, Element) and node.tag in ("caution", "question", "source")
        if (special or node is None) and run:
            blocks.append(Block("text", render(run, lesson_figure)))
            run = []
        if not special and node is not None:
            run.append(node)
        elif isinstance(node, Element):
            block = _block(pack, node, person, day)
            blocks += [block] if block else []
    return tuple(blocks)


def _block(pack: Pack, node: Element, person: int, day: dt.date) -> Block | None:
    if node.tag != "question":
        return Block(node.tag, render(node.children, lesson_figure))
    try:
        question = pack.question(node.get("id"))
    except KeyError:
        return None
    if question.use == "check":
        return None
    ways = numbers(question)
    key = keyed("lesson", person, question.id)
    number = next((ways[at] for at in places(len(ways), key) if asking.stands_on(pack, question, ways[at], day)), None)
    if number is None:
        return None
    variant = asking.variant_of(pack, question.id, number, asking.arrangement(question, "lesson", person, question.id))
    return Block("question", "", asking.question_view(pack, variant))
