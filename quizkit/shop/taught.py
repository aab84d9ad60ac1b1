"""A lesson as it was in force: what somebody had been taught, whatever the lessons say today."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.shop.crews import day_of
from quizkit.shop.handle import Shop
from quizkit.shop.modules import Block, blocks_of
from quizkit.shop.packs import lesson_of, module_named, pack_of, publication_on
from quizkit.shop.people import trainer


@dataclass(frozen=True, slots=True)
class LessonThen:
    """A lesson in force on a day. `pack` is the hash of the lessons, `since` the day they had come into force."""

    title: str
    module_title: str
    day: dt.date
    body: tuple[Block, ...]
    pack: str
    since: dt.date


def lesson_then(shop: Shop, viewer: int, day: dt.date, module: str, lesson: str, *, now: dt.datetime) -> LessonThen:
    """A lesson as it was in force on a day, for trainers and managers.

    Raises Refusal for a day to come, Unknown where the lessons of that day had none of that name.
    """
    trainer(shop, viewer)
    published = publication_on(shop, day_of(shop, now, day))
    pack = pack_of(shop, published["pack"])
    one = module_named(pack, module)
    page = lesson_of(one, lesson)
    body = blocks_of(pack, page, viewer, day)
    return LessonThen(page.title, one.scheme.title, day, body, published["pack"], published["seen_on"])
