"""A check as drawn for one person: questions, variants and order of options, on record before the first is shown."""

from __future__ import annotations

import datetime as dt
from collections import Counter, OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from quizkit.pack.model import Module, Pack, Question
from quizkit.pack.variant import Graded, Variant
from quizkit.quiz.form import Candidate, FormError, draw
from quizkit.quiz.walk import keyed
from quizkit.scoring.reading import Style
from quizkit.scoring.verdict import VERSION
from quizkit.shop import asking
from quizkit.shop.asking import PartView
from quizkit.shop.gates import topics_of
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_hash, current_pack, for_check, module_of, pack_of, settings, zone_of
from quizkit.shop.people import PersonView, day_at
from quizkit.shop.refusal import Forbidden, Refusal, Unknown
from quizkit.shop.terms import stretch
from quizkit.shop.walks import next_for
from quizkit.shop.whose import forms_of, owned
from quizkit.words import _

Typed = Mapping[str, str]
"""What was typed to a question, by the names of its parts."""
NOTHING: Typed = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Item:
    """One question of a form with the latest answer typed to it."""

    stored: Stored
    variant: Variant
    typed: Typed
    answered: bool

    @property
    def number(self) -> int:
        """Its place in the form, from 1."""
        return int(self.stored["item"])

    def graded(self) -> Graded:
        """The verdict on the latest answer."""
        return self.variant.grade(self.typed)


def draw_form(
    shop: Shop,
    person: PersonView | None,
    skill: str,
    kind: str,
    now: dt.datetime,
    help: str = "",
    helper: str = "",
    language: str = "",
    printed_by: PersonView | None = None,
) -> int:
    """Draw a form and record it whole. Refuses where a topic is short of questions that the shop's shelf can fill.

    With `printed_by` it goes on paper: it never closes by itself, and without a `person` it is for whoever takes it.
    """
    by = printed_by or person
    assert by is not None
    pack, day, who = current_pack(shop), day_at(shop, person or by, now), person.person if person else None
    module = module_of(pack, skill)
    key = keyed("form", who, skill, len(forms_of(shop, who, skill=skill)))
    try:
        chosen = draw(_candidates(shop, pack, module, who, day), topics_of(module, kind), key)
    except FormError as error:
        raise Refusal(_("This check cannot be drawn: {why}").format(why=error), _("tell a trainer")) from None
    form = shop.add(
        "form",
        by=by.person,
        seen_on=day,
        person=who,
        skill=skill,
        kind=kind,
        pack=current_hash(shop),
        language=language or (person or by).language,
        help=help or None,
        helper=helper or None,
        site=(person or by).site,
        zone=zone_of(shop, (person or by).site),
        closes_at=None if printed_by else now + stretch(module.scheme.check.open_for),
        paper=printed_by is not None,
        note=None,
    )
    for item, name in enumerate(chosen, 1):
        question = pack.question(name)
        number = next_for(shop, pack, who, question, day)
        shop.add(
            "form_item",
            by=by.person,
            seen_on=day,
            form=form,
            item=item,
            question=name,
            question_hash=asking.question_hash(question),
            variant=number,
            ordering=asking.arrangement(question, "check", form, item),
            critical=asking.is_critical(question),
        )
    return form


def _candidates(shop: Shop, pack: Pack, module: Module, person: int | None, day: dt.date) -> list[Candidate]:
    """The questions that a check may ask, those left out that the shelf cannot fill today."""
    met: Counter[str] = Counter()
    for form in forms_of(shop, person, skill=module.scheme.skill):
        met.update(row["question"] for row in shop.rows("form_item", form=form))
    return [
        Candidate(one.id, one.topic, asking.is_critical(one), len(one.parts), met[one.id])
        for one in for_check(module)
        if next_for(shop, pack, person, one, day) is not None
    ]


def form_of(shop: Shop, form: int, person: int | None = None) -> Stored:
    """A form with its person; with `person` it must be theirs, and not lie on paper. Raises Unknown and Refusal."""
    stored = owned(shop, _form(shop, form))
    if person is not None and stored["person"] != person:
        raise Forbidden(_("This is somebody else's check"), _("go back to your own ticket"))
    if person is not None and stored["paper"] and result_of(shop, form) is None:
        raise Refusal(_("This check is on paper"), _("fill it in there; a trainer types it in"))
    return stored


def result_of(shop: Shop, form: int) -> Stored | None:
    """The result of a form, None while it is open."""
    return shop.row("result", form=form)


def items_of(shop: Shop, form: Stored) -> tuple[Item, ...]:
    """The questions of a form in order, each with its latest answer."""
    typed, pack = typed_of(shop, form), pack_of(shop, form["pack"])
    return tuple(_item(pack, row, typed[number]) for number, row in drawn(shop, form).items())


def typed_of(shop: Shop, form: Stored) -> dict[int, Typed]:
    """What was typed last to each question of a form, by number and in order; nothing where nobody has answered."""
    asked = drawn(shop, form)
    return dict.fromkeys(asked, NOTHING) | shop.latest("answer", "typed", "item", list(asked), form=form["id"])


def holds(typed: Typed) -> bool:
    """Whether anything was typed."""
    return any(text.strip() for text in typed.values())


def parts_of(shop: Shop, form: Stored, one: Item) -> tuple[PartView, ...]:
    """What one question of a form takes: its boxes and options, without anything that was typed."""
    return _parts(pack_of(shop, form["pack"]).style, *_key(one.variant.question, one.stored))


def asked_of(shop: Shop, form: Stored, number: int) -> Item:
    """One question of a form, whatever was answered to it. Raises Unknown."""
    row = drawn(shop, form).get(number)
    if row is None:
        raise Unknown(_("This check has no question {number}").format(number=number), _("go back to the list"))
    return _item(pack_of(shop, form["pack"]), row, NOTHING)


def with_typed(one: Item, typed: Typed) -> Item:
    """The same question with something else typed to it."""
    return replace(one, typed=typed, answered=holds(typed))


def write_answer(shop: Shop, by: int, form: Stored, one: Item, typed: Typed, day: dt.date) -> None:
    """Write an answer to one question of a form down, with its verdict; only inside a deed."""
    answered = with_typed(one, typed)
    put_answer(shop, by, form, answered, marked(answered, answered.graded()), day)


def marked(one: Item, graded: Graded) -> Mapping[str, Any]:
    """What a row says of an answer: as typed, the numbers it was about, the verdict and the marks."""
    return {
        "typed": dict(one.typed),
        "givens": asking.givens_row(one.variant),
        "verdict": asking.verdict_row(graded),
        "marks": str(graded.marks),
        "out_of": str(graded.out_of),
        "marking": VERSION,
        "unread": bool(graded.unread),
    }


def put_answer(shop: Shop, by: int, form: Stored, one: Item, row: Mapping[str, Any], day: dt.date) -> None:
    """Write an answer that has been marked; only inside a deed."""
    shop.add("answer", by=by, seen_on=day, form=form["id"], item=one.number, pack=form["pack"], **row)


_FORMS: OrderedDict[str, Stored] = OrderedDict()
"""Forms by their seals, which stand for all that is in them; those with a note or a helper's name are not kept, since
such words may be erased."""


def _form(shop: Shop, number: int) -> Stored:
    """A form by its number. Raises Unknown."""
    seals = shop.values("form", "seal", id=number) if abs(number) < 1 << 63 else []
    found = _FORMS.get(seals[0]) if seals else None
    if found is None:
        found = shop.get("form", number)
        if not found["note"] and not found["helper"]:
            _FORMS[found["seal"]] = found
            if len(_FORMS) > FORMS:
                _FORMS.popitem(last=False)
    return found


_DRAWN: OrderedDict[str, Mapping[int, Stored]] = OrderedDict()
"""The questions of forms by the form's seal: they are drawn in the same deed and never change, and no two forms, of
whatever file, have the same seal."""
FORMS = 2000
"""Forms whose questions are kept in memory; whichever was read first goes first."""


def drawn(shop: Shop, form: Stored) -> Mapping[int, Stored]:
    """The questions of a form as they were drawn, by number and in order."""
    found = _DRAWN.get(form["seal"])
    if found is None:
        rows = sorted(shop.rows("form_item", form=form["id"]), key=lambda row: int(row["item"]))
        found = _DRAWN[form["seal"]] = {row["item"]: row for row in rows}
        if len(_DRAWN) > FORMS:
            _DRAWN.popitem(last=False)
    return found


def _item(pack: Pack, row: Stored, typed: Typed) -> Item:
    return Item(row, _variant(pack.style, *_key(pack.question(row["question"]), row)), typed, holds(typed))


Arranged = tuple[tuple[str, tuple[int, ...]], ...]


def _key(question: Question, row: Stored) -> tuple[Question, int, Arranged]:
    return question, row["variant"], tuple((name, tuple(places)) for name, places in row["ordering"].items())


@lru_cache(maxsize=4096)
def _variant(style: Style, question: Question, number: int, arranged: Arranged) -> Variant:
    """A variant with its options as recorded. It is asked for many times while somebody is at it, and never changes."""
    return Variant(question, number, {name: list(places) for name, places in arranged}, style)


@lru_cache(maxsize=4096)
def _parts(style: Style, question: Question, number: int, arranged: Arranged) -> tuple[PartView, ...]:
    return asking.part_views(_variant(style, question, number, arranged))


def module_of_form(shop: Shop, form: Stored) -> Module:
    """The module of a form, as it was when the form was drawn."""
    return module_of(pack_of(shop, form["pack"]), form["skill"])


def decimal_mark(shop: Shop) -> str:
    """The shop's decimal mark."""
    return settings(shop).mark
