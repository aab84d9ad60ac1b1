"""The invented shop: people, materials and thirteen months of practice, checks and sheets, none of it real.

Everything in its file is written by the deeds of `quizkit.shop` with past moments, in order, as it would have happened.
"""

from __future__ import annotations

import datetime as dt
import heapq
from collections.abc import Callable, Iterable
from pathlib import Path
from zoneinfo import ZoneInfo

from quizkit import shop as deeds
from quizkit.demo.cast import BONDING, CAST, FIRST_TRAINER, FOUNDED, MANAGER, OFFICE, SECOND_TRAINER, Member
from quizkit.demo.extras import extras
from quizkit.demo.lives import Life, Story, course
from quizkit.demo.product import before
from quizkit.pack.model import Pack
from quizkit.records import key_path
from quizkit.shop import Shop

Tick = Callable[[float], None]
"""Is told, now and then, what share of the story has been lived."""


def content_folder() -> Path:
    """The lessons of the demo: those of the checkout, or those that the installed package carries."""
    import quizkit

    package = Path(quizkit.__file__).parent
    packaged = package / "content"
    return packaged if packaged.is_dir() else package.parent / "content"


def make_file(path: Path, pack: Pack, *, now: dt.datetime, tick: Tick | None = None) -> None:
    """Make the invented shop at `path`; a story that is cut short leaves no file of that name."""
    part = path.with_name(f"{path.stem}-part{path.suffix}")
    beside = (part, key_path(part), part.with_name(f"{part.name}-wal"), part.with_name(f"{part.name}-shm"))
    for each in beside:
        each.unlink(missing_ok=True)
    with deeds.open_shop(part, create=True) as shop:
        make(shop, pack, now=now, tick=tick)
    key_path(part).rename(key_path(path))
    part.rename(path)


def make(shop: Shop, pack: Pack, *, now: dt.datetime, tick: Tick | None = None) -> None:
    """Live the story of the invented shop in an empty file, up to `now` (aware)."""
    zone = ZoneInfo(pack.scheme.zone)
    story = Story(shop, before(pack), now.astimezone(zone).date(), zone)
    lives = [_founding(story), _entitling(story)]
    for member in CAST:
        if member.joined < FOUNDED:
            lives.append(_joining(story, member))
        lives += [_proof(story, member, *proof) for proof in member.proofs]
        lives += [course(story, member, one) for one in member.courses]
    _live([*lives, _product_changes(story, pack), *extras(story)], now, tick)


def _live(lives: Iterable[Life], now: dt.datetime, tick: Tick | None) -> None:
    """Let all lives run in one order of time; no step comes later than `now`."""
    waiting: list[tuple[dt.datetime, int, Life]] = []
    for number, life in enumerate(lives):
        _wait(waiting, life, number)
    begun = last = min(moment for moment, _number, _life in waiting)
    while waiting:
        moment, number, life = heapq.heappop(waiting)
        assert last <= moment <= now, "a life steps back in time, or ahead of the clock"
        last = moment
        if tick is not None:
            tick((moment - begun) / (now - begun))
        _wait(waiting, life, number)


def _wait(waiting: list[tuple[dt.datetime, int, Life]], life: Life, number: int) -> None:
    """Take a life's step, and put it in the line with the moment of its next one."""
    moment = next(life, None)
    if moment is not None:
        heapq.heappush(waiting, (moment, number, life))


def _founding(story: Story) -> Life:
    """The first day: the lessons, the manager, the trainers, and their right to sign until others hold clearances."""
    moment = story.at(FOUNDED, 7)
    yield moment
    deeds.publish(story.shop, story.pack, None, now=moment)
    for member in CAST:
        if member.joined == FOUNDED:
            _join(story, member, moment)
    basis = "Taught this before the shop began; papers of the courses seen by the owner and kept in the office."
    manager = story.people[MANAGER]
    for name, skills in ((FIRST_TRAINER, ("ppe", *BONDING, *OFFICE)), (SECOND_TRAINER, ("ppe", *OFFICE))):
        for skill in skills:
            deeds.grant(story.shop, manager, story.people[name], skill, now=moment, basis=basis, founding=True)


def _product_changes(story: Story, pack: Pack) -> Life:
    """A maker changes a label: today's lessons come in force, and somebody has yet to say how large the change is."""
    moment = story.at(4, 6)
    yield moment
    deeds.publish(story.shop, pack, story.people[MANAGER], now=moment)
    story.pack = pack


def _entitling(story: Story) -> Life:
    """The second trainer may sign the bonding skills once she is cleared in them."""
    moment = story.at(365, 9)
    yield moment
    for skill in BONDING:
        basis = "Cleared in it, and watched by the first trainer."
        deeds.grant(story.shop, story.people[MANAGER], story.people[SECOND_TRAINER], skill, now=moment, basis=basis)


def _joining(story: Story, member: Member) -> Life:
    moment = story.at(member.joined, 7, 15)
    yield moment
    _join(story, member, moment)


def _join(story: Story, member: Member, now: dt.datetime) -> None:
    by = story.people.get(MANAGER)
    story.people[member.name] = deeds.add_person(
        story.shop, name=member.name, role=member.role, site=member.site, secret=member.secret, by=by, now=now
    )


def _proof(story: Story, member: Member, kind: str, ago: int, holds: int | None) -> Life:
    moment = story.at(ago, 7, 40)
    yield moment
    until = None if holds is None else story.day(moment) + dt.timedelta(days=holds)
    detail = "half mask, size M" if kind == "fit-test" else ""
    deeds.see_proof(
        story.shop, story.people[MANAGER], story.people[member.name], kind, until, now=moment, detail=detail
    )
