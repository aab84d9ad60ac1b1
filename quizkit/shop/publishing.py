"""Publishing a pack: it comes into force, and what it changed on the shelf is written down beside it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.formula import Row
from quizkit.pack.codec import plain, to_json
from quizkit.pack.model import Pack
from quizkit.records.packs import store_pack
from quizkit.shop.asking import question_hash
from quizkit.shop.handle import Shop
from quizkit.shop.packs import current_hash, current_pack, remember
from quizkit.shop.people import manager
from quizkit.shop.refusal import Forbidden
from quizkit.standing.dates import local_day
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Publication:
    """A pack in force: its number and hash, and what it changed (ids of questions, names of materials)."""

    number: int
    hash: str
    title: str
    new: tuple[str, ...]
    changed: tuple[str, ...]
    gone: tuple[str, ...]
    materials: tuple[str, ...]


def publish(shop: Shop, pack: Pack, by: int | None, *, now: dt.datetime) -> Publication:
    """Bring a pack into force. `by` is a manager; None only for the first pack of a new shop.

    The same pack again changes nothing and is not written twice.
    """
    with shop.deed(now):
        first = shop.row("publication") is None
        if by is not None:
            manager(shop, by)
        elif not first:
            raise Forbidden(_("Only a manager publishes"), _("sign in as a manager"))
        body = to_json(pack)
        old = None if first else current_pack(shop)
        with_hash = store_pack(shop.records, body)
        remember(with_hash, pack)
        if not first and current_hash(shop) == with_hash:
            return Publication(
                int(shop.rows("publication", newest=True, limit=1)[0]["id"]),
                with_hash,
                pack.scheme.name,
                (),
                (),
                (),
                (),
            )
        day = local_day(now, pack.scheme.zone)
        new, changed, gone = _questions(old, pack)
        number = shop.add(
            "publication",
            by=by,
            seen_on=day,
            pack=with_hash,
            title=pack.scheme.name,
            changes={"new": list(new), "changed": list(changed), "gone": list(gone)},
        )
        materials = _shelf_changes(old, pack)
        for name, before, after in materials if old is not None else ():
            shop.add(
                "product_change",
                by=by,
                seen_on=day,
                publication=number,
                material=name,
                old_row=plain(before) if before else None,
                new_row=plain(after) if after else None,
            )
        return Publication(
            number, with_hash, pack.scheme.name, new, changed, gone, tuple(name for name, _b, _a in materials)
        )


def _questions(old: Pack | None, new: Pack) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """The ids of questions that are new, changed and gone."""
    before = {one.id: question_hash(one) for one in old.questions()} if old else {}
    after = {one.id: question_hash(one) for one in new.questions()}
    changed = tuple(name for name, hash in after.items() if name in before and before[name] != hash)
    return (
        tuple(name for name in after if name not in before),
        changed,
        tuple(name for name in before if name not in after),
    )


def _shelf_changes(old: Pack | None, new: Pack) -> tuple[tuple[str, Row | None, Row | None], ...]:
    """The materials that are new, changed or gone, each with its row before and after."""
    before = {row.name: row for row in old.shelf.rows} if old else {}
    after = {row.name: row for row in new.shelf.rows}
    names = [*after, *(name for name in before if name not in after)]
    return tuple((name, before.get(name), after.get(name)) for name in names if before.get(name) != after.get(name))
