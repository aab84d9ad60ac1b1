"""The packs of a shop: the one in force, and every earlier one by its hash; kept in memory once read."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from quizkit.pack.codec import from_json
from quizkit.pack.model import Lesson, Module, Pack, Question
from quizkit.pack.scheme import Scheme
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.refusal import Refusal, Unknown
from quizkit.shop.terms import standing_scheme
from quizkit.standing import scheme as standing
from quizkit.words import _

CURRENT = ("pack",)
"""The key under which a shop keeps the hash of the pack in force, in a list; the list is empty before the first."""
_READ: dict[str, Pack] = {}
"""Packs by hash. A pack never changes, so what was read once serves every later request of this process."""


@dataclass(frozen=True, slots=True)
class SiteView:
    """A place of the shop."""

    id: str
    title: str
    zone: str


def remember(hash: str, pack: Pack) -> None:
    """Keep a pack that was just published or read."""
    _READ[hash] = pack


def pack_of(shop: Shop, hash: str) -> Pack:
    """The pack of a hash, as it was published. Raises Unknown where this shop never published it."""
    if hash not in _READ:
        body = shop.pack_body(hash)
        if body is None:
            raise Unknown(_("This shop never published a pack {hash}").format(hash=hash[:12]))
        remember(hash, from_json(Pack, body))
    return _READ[hash]


def current_hash(shop: Shop) -> str:
    """The hash of the pack in force. Refuses where nothing has been published."""
    found = shop.known(CURRENT, lambda: shop.values("publication", "pack", newest=True, limit=1))
    if not found:
        raise _nothing_published()
    return str(found[0])


def _nothing_published() -> Refusal:
    mend = _(
        "whoever runs the server publishes the lessons with '{command}'; everybody else asks their trainer or manager, "
        "and comes back once they are there"
    )
    command = "quizkit serve --shop shop.db --content content"
    return Refusal(_("Nothing has been published here yet"), mend.format(command=command))


def current_pack(shop: Shop) -> Pack:
    """The pack in force. Refuses where nothing has been published."""
    return pack_of(shop, current_hash(shop))


def publication_on(shop: Shop, day: dt.date) -> Stored:
    """The publication in force at the end of a day; the first one for a day before anything was published."""
    rows = shop.rows("publication")
    if not rows:
        raise _nothing_published()
    return [*rows[:1], *(row for row in rows if row["seen_on"] <= day)][-1]


def pack_on(shop: Shop, day: dt.date) -> Pack:
    """The pack in force at the end of a day; the first one for a day before anything was published."""
    return pack_of(shop, publication_on(shop, day)["pack"])


def settings(shop: Shop) -> Scheme:
    """The settings of the shop in force."""
    return current_pack(shop).scheme


def shop_name(shop: Shop) -> str:
    """What the shop is called; 'quizkit' before anything is published."""
    return settings(shop).name if published(shop) else "quizkit"


def published(shop: Shop) -> bool:
    """Whether anything has been published."""
    return bool(shop.values("publication", "id", limit=1))


def sites(shop: Shop) -> tuple[SiteView, ...]:
    """The places of the shop."""
    return tuple(SiteView(site.id, site.title, site.zone) for site in settings(shop).sites)


def zone_of(shop: Shop, site: str) -> str:
    """The zone of a site; the shop's where the settings no longer name the site."""
    scheme = settings(shop)
    return next((one.zone for one in scheme.sites if one.id == site), scheme.zone)


@lru_cache(maxsize=16)
def _scheme(hash: str) -> standing.Scheme:
    pack = _READ[hash]
    return standing_scheme(pack.scheme, [module.scheme for module in pack.modules])


def scheme_of(shop: Shop) -> standing.Scheme:
    """What standing asks of this shop, by the pack in force."""
    return scheme_in(shop, current_hash(shop))


def scheme_on(shop: Shop, day: dt.date) -> standing.Scheme:
    """What standing asked of this shop at the end of a day: no later change of the settings moves a past standing."""
    return scheme_in(shop, publication_on(shop, day)["pack"])


def scheme_in(shop: Shop, hash: str) -> standing.Scheme:
    """What standing asked of this shop by the pack of a hash."""
    pack_of(shop, hash)
    return _scheme(hash)


def in_order(pack: Pack) -> tuple[Module, ...]:
    """The modules in the order in which people take them: the shop's first skill, and each after what it needs."""
    by_skill = {module.scheme.skill: module for module in pack.modules}
    taken: dict[str, Module] = {}

    def take(skill: str) -> None:
        for need in by_skill[skill].scheme.needs:
            take(need)
        taken.setdefault(skill, by_skill[skill])

    for skill in sorted(by_skill, key=lambda skill: skill != pack.scheme.first):
        take(skill)
    return tuple(taken.values())


def module_of(pack: Pack, skill: str) -> Module:
    """The module of a skill. Raises Unknown."""
    for module in pack.modules:
        if module.scheme.skill == skill:
            return module
    known = ", ".join(module.scheme.skill for module in pack.modules)
    has = _("the shop has: {known}").format(known=known) if known else _("the shop has no lessons yet")
    raise Unknown(_("There is no skill '{skill}'").format(skill=skill), has)


def module_named(pack: Pack, name: str) -> Module:
    """A module by its id, or by its skill. Raises Unknown."""
    return next((module for module in pack.modules if module.id == name), None) or module_of(pack, name)


def question_of(pack: Pack, name: str) -> Question:
    """A question by its full id. Raises Unknown."""
    try:
        return pack.question(name)
    except KeyError:
        raise Unknown(_("There is no question '{name}'").format(name=name), _("go back to the lesson")) from None


def lesson_of(module: Module, name: str) -> Lesson:
    """A lesson by its id, with or without the module's name before it. Raises Unknown."""
    for lesson in module.lessons:
        if name in (lesson.id, lesson.id.removeprefix(f"{module.id}/")):
            return lesson
    raise Unknown(_("There is no lesson '{name}'").format(name=name), _("go back to the module"))


def lesson_with(module: Module, question: str) -> Lesson | None:
    """The lesson in which a question stands, or None."""
    return next((lesson for lesson in module.lessons if question in lesson.questions), None)


def for_practice(module: Module) -> Iterator[Question]:
    """The questions that practice may ask."""
    return (question for question in module.questions if question.use != "check")


def for_check(module: Module) -> Iterator[Question]:
    """The questions that a check may ask."""
    return (question for question in module.questions if question.use != "practice")
