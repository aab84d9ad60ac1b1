"""Changes of product: what changed on the shelf, marked small or large, and who shows again what changed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.pack.model import Pack
from quizkit.pack.shown import day as day_words
from quizkit.shop.evidence import events
from quizkit.shop.handle import Shop, Stored, chosen
from quizkit.shop.label import shelf_label
from quizkit.shop.packs import current_pack, pack_of, scheme_of, settings
from quizkit.shop.people import day_at, person_view, trainer
from quizkit.shop.refusal import Refusal
from quizkit.standing.dates import local_day
from quizkit.standing.gate import AskedAgain, ProductChange, asked_again
from quizkit.words import _

SIZES = ("small", "large")


@dataclass(frozen=True, slots=True)
class Difference:
    """A large change of a product that somebody was seen to use: what is asked of them, and by when."""

    change: int
    material: str
    skill: str
    until: dt.date
    checked: bool

    def words(self) -> str:
        """What is still to be shown again, and by when."""
        text = (
            _("{material} has changed: sheet by {day}")
            if self.checked
            else _("{material} has changed: short check and sheet by {day}")
        )
        return text.format(material=self.material, day=day_words(self.until))


@dataclass(frozen=True, slots=True)
class ChangedField:
    """A field of the shelf label before and after; "" where there was, or is, nothing."""

    title: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class ChangedFor:
    """Somebody who was signed off with the material before it changed, and what they have shown since."""

    person: int
    name: str
    site_title: str
    skill: str
    title: str
    checked: bool
    shown: bool
    overdue: bool


@dataclass(frozen=True, slots=True)
class ChangeView:
    """A new, changed or gone row of the shelf. `size` is "" until it is marked; `until` the day of a large one.

    `people` used it before: with a large mark they are asked for a short check and a new sheet, unmarked they would be;
    a small change asks nobody.
    """

    number: int
    material: str
    kind: str
    day: dt.date
    fields: tuple[ChangedField, ...]
    size: str
    until: dt.date | None
    marked_by: str
    marked_on: dt.date | None
    people: tuple[ChangedFor, ...]


def changes(shop: Shop, viewer: int, *, now: dt.datetime) -> tuple[ChangeView, ...]:
    """What changed on the shelf since the shop's first pack, the latest first; for a trainer or a manager."""
    trainer(shop, viewer)
    marks = _marks(shop)
    packs = [row["pack"] for row in shop.rows("publication")]
    numbers = [row["id"] for row in shop.rows("publication")]
    views = []
    for row in shop.rows("product_change", newest=True):
        at = numbers.index(row["publication"])
        before, after = pack_of(shop, packs[at - 1]), pack_of(shop, packs[at])
        views.append(_view(shop, row, marks.get(row["id"]), before, after, now))
    return tuple(views)


def unmarked(shop: Shop) -> int:
    """How many changes of the shelf nobody has marked yet."""
    return shop.count("product_change") - len(_marks(shop))


def mark_change(shop: Shop, by: int, change: int, size: str, *, now: dt.datetime, until: dt.date | None = None) -> int:
    """Mark a change as small, or as large with the day by which its users show it again; the latest mark counts.

    A large one asks everybody who was signed off with the material for a difference check and a new sheet. Refuses a
    large mark for a material that is new (nobody used it) or gone (nobody can show it), and one without a day to come.
    """
    with shop.deed(now):
        view = trainer(shop, by)
        row = shop.get("product_change", change)
        chosen(SIZES, size, _("size of a change"))
        day = day_at(shop, view, now)
        if size == "large":
            _may_be_large(row, until, day)
        return shop.add(
            "product_mark",
            by=by,
            seen_on=day,
            product_change=row["id"],
            size=size,
            until=until if size == "large" else None,
        )


def _may_be_large(row: Stored, until: dt.date | None, day: dt.date) -> None:
    if row["old_row"] is None:
        raise Refusal(_("{name} is new: nobody has used it before").format(name=row["material"]), _("mark it small"))
    if row["new_row"] is None:
        what = _("{name} has left the shelf: nobody can show it again").format(name=row["material"])
        raise Refusal(what, _("mark it small"))
    if until is None or until < day:
        raise Refusal(_("A large change needs the day by which it is shown again"), _("pick a day to come"))


def differs(shop: Shop, person: int, skill: str) -> Difference | None:
    """The latest large change of product that still asks this person for a short check or a new sheet in a skill."""
    for change, told in _large(shop):
        if not shop.count("sheet", person=person, skill=skill, material=told.material):
            continue
        for one in asked_again(events(shop, person), told, dt.date.max):
            if one.skill == skill and not (one.check_done and one.sheet_done):
                return Difference(change, told.material, skill, told.by, one.check_done)
    return None


def _marks(shop: Shop) -> Mapping[int, Stored]:
    """The mark that counts of each change: its latest."""
    return {row["product_change"]: row for row in shop.rows("product_mark")}


def _large(shop: Shop) -> list[tuple[int, ProductChange]]:
    """The changes that count as large, the latest marked first."""
    found = []
    for mark in reversed(list(_marks(shop).values())):
        if mark["size"] == "large":
            row = shop.get("product_change", mark["product_change"])
            found.append((row["id"], _told(row, mark["until"])))
    return found


def _told(row: Stored, until: dt.date | None) -> ProductChange:
    return ProductChange(row["material"], row["seen_on"], until or dt.date.max, row["recorded_at"])


def _view(shop: Shop, row: Stored, mark: Stored | None, before: Pack, after: Pack, now: dt.datetime) -> ChangeView:
    kind = "new" if row["old_row"] is None else "gone" if row["new_row"] is None else "changed"
    asks = kind == "changed" and not (mark and mark["size"] == "small")
    return ChangeView(
        number=row["id"],
        material=row["material"],
        kind=kind,
        day=row["seen_on"],
        fields=_fields(before, after, row["material"]),
        size=mark["size"] if mark else "",
        until=mark["until"] if mark else None,
        marked_by=person_view(shop, mark["done_by"]).name if mark else "",
        marked_on=mark["seen_on"] if mark else None,
        people=_people(shop, _told(row, mark["until"] if mark else None), now) if asks else (),
    )


def _fields(before: Pack, after: Pack, material: str) -> tuple[ChangedField, ...]:
    """The fields of a label that are not what they were, in the shelf's order."""
    old, new = _label(before, material), _label(after, material)
    titles = dict.fromkeys((*new, *old))
    return tuple(
        ChangedField(title, old.get(title, ""), new.get(title, ""))
        for title in titles
        if old.get(title, "") != new.get(title, "")
    )


def _label(pack: Pack, material: str) -> dict[str, str]:
    row = pack.shelf.row(material)
    if row is None:
        return {}
    label = shelf_label(pack, row)
    return {_("Family"): label.family, _("Ratio"): label.ratio, **dict(label.lines)}


def _people(shop: Shop, change: ProductChange, now: dt.datetime) -> tuple[ChangedFor, ...]:
    """Who was signed off with a material before it changed, by name; people who have left are not asked."""
    day = local_day(now, settings(shop).zone)
    titles = {module.scheme.skill: module.scheme.title for module in current_pack(shop).modules}
    found = []
    for person in {row["person"] for row in shop.rows("sheet", material=change.material)}:
        view = person_view(shop, person)
        if view.left is None:
            asked = asked_again(events(shop, person), change, dt.date.max)
            found += [_changed_for(shop, one, titles, day) for one in asked if one.skill in scheme_of(shop).by_id]
    return tuple(sorted(found, key=lambda one: (one.name, one.title)))


def _changed_for(shop: Shop, one: AskedAgain, titles: Mapping[str, str], day: dt.date) -> ChangedFor:
    view = person_view(shop, int(one.person))
    return ChangedFor(
        person=view.person,
        name=view.name,
        site_title=view.site_title,
        skill=one.skill,
        title=titles[one.skill],
        checked=one.check_done,
        shown=one.sheet_done,
        overdue=one.overdue(day),
    )
