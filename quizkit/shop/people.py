"""The people of a shop: who works here, in which role and where; who joins, changes and leaves."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.pack.scheme import Scheme
from quizkit.shop import secret as secrets
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import CURRENT, pack_of, settings, zone_of
from quizkit.shop.refusal import Forbidden, Refusal, Unknown
from quizkit.standing.dates import local_day
from quizkit.words import _

LONGEST_NAME = 80


@dataclass(frozen=True, slots=True)
class PersonView:
    """A person: number, name (a number in words once they have left), role and site.

    `zone` is that of their site by the pack in force; empty before anything is published.
    """

    person: int
    name: str
    role: str
    site: str
    site_title: str
    zone: str
    language: str
    left: dt.date | None


@dataclass(frozen=True, slots=True)
class RosterRow:
    """A row of the roster by which people sign in."""

    person: int
    name: str
    role: str
    site: str
    site_title: str
    secret_kind: str


def person_view(shop: Shop, person: int) -> PersonView:
    """One person. Raises Unknown."""
    return shop.known(("person", person), lambda: _read_person(shop, person))


def _read_person(shop: Shop, person: int) -> PersonView:
    stored = shop.row("person", number=person)
    if stored is None:
        raise Unknown(_("There is no person with the number {number}").format(number=person), _("look in the roster"))
    return _view(stored, _scheme(shop))


def arrive(shop: Shop, token: str) -> tuple[Stored, PersonView] | None:
    """The session with a token's hash and whose it is, or None.

    The person and the pack in force come with it: whoever asks for them afterwards needs no other read.
    """
    kept = shop.kept()
    stored = shop.arrival(token)
    if stored is None:
        return None
    pack = stored["pack"]
    kept[CURRENT] = [pack] if pack else []
    view = kept["person", stored["person"]] = _view(stored, pack_of(shop, pack).scheme if pack else None)
    return stored, view


def person_named(shop: Shop, text: str) -> int:
    """A person by number or by whole name, as typed. Raises Unknown; Refusal where several have the name."""
    sought = " ".join(text.split())
    if sought.isascii() and sought.isdigit() and len(sought) < 13:
        return person_view(shop, int(sought)).person
    found = [one for one in people(shop) if one.name.casefold() == sought.casefold()]
    if not found:
        raise Unknown(
            _("Nobody here is called '{name}'").format(name=sought[:80]), _("type the whole name, or the number")
        )
    if len(found) > 1:
        numbers = ", ".join(str(one.person) for one in found)
        raise Refusal(
            _("Several people are called {name}").format(name=found[0].name),
            _("type the number instead: {numbers}").format(numbers=numbers),
        )
    return found[0].person


def people(shop: Shop, *, with_left: bool = False, site: str = "") -> tuple[PersonView, ...]:
    """Everybody (of a site), by name; who has left only if asked for."""
    scheme = _scheme(shop)
    views = [_view(stored, scheme) for stored in shop.rows("person", **({"site": site} if site else {}))]
    return tuple(
        sorted(
            (one for one in views if with_left or one.left is None), key=lambda one: (one.name.casefold(), one.person)
        )
    )


def roster(shop: Shop, find: str = "") -> tuple[RosterRow, ...]:
    """Who can sign in, by name; with `find` those whose name holds each of its words."""
    words = find.casefold().split()
    return tuple(_row(one) for one in people(shop) if all(word in one.name.casefold() for word in words))


def roster_row(shop: Shop, person: int) -> RosterRow:
    """One who can sign in. Raises Unknown for a number that nobody has, or nobody any more."""
    view = person_view(shop, person)
    if view.left is not None:
        raise Unknown(_("There is no person with the number {number}").format(number=person), _("look in the roster"))
    return _row(view)


def _row(one: PersonView) -> RosterRow:
    kind = "PIN" if secrets.needs_pin(one.role) else "passphrase"
    return RosterRow(one.person, one.name, one.role, one.site, one.site_title, kind)


def here(shop: Shop, person: int) -> PersonView:
    """One person who still works here. Refuses for one who has left."""
    view = person_view(shop, person)
    if view.left is not None:
        raise Refusal(_("{name} has left the shop").format(name=view.name), _("nothing can be added to this record"))
    return view


def day_at(shop: Shop, person: PersonView, now: dt.datetime) -> dt.date:
    """The day it is at a person's site."""
    return local_day(now, person.zone or zone_of(shop, person.site))


def manager(shop: Shop, by: int) -> PersonView:
    """The person behind `by`, who must be a manager."""
    return _one_of(shop, by, ("manager",), _("Only a manager may do this"))


def trainer(shop: Shop, by: int) -> PersonView:
    """The person behind `by`, who must be a trainer or a manager."""
    return _one_of(shop, by, ("trainer", "manager"), _("Only a trainer or a manager may do this"))


def may_see(shop: Shop, viewer: int, person: int) -> PersonView:
    """The person behind `viewer`: `person` themselves, a trainer or a manager; nobody else sees a person's record."""
    view = person_view(shop, viewer)
    if viewer != person and (view.left or view.role not in ("trainer", "manager")):
        raise Forbidden(_("This is somebody else's record"), _("ask a trainer or a manager"))
    return view


def not_oneself(by: int, person: int) -> None:
    """Refuse a deed that nobody may do for themselves."""
    if by == person:
        raise Forbidden(_("Nobody does this for themselves"), _("ask another trainer or manager"))


def _one_of(shop: Shop, by: int, roles: tuple[str, ...], what: str) -> PersonView:
    view = person_view(shop, by)
    if view.left or view.role not in roles:
        raise Forbidden(what, _("sign in as somebody who may"))
    return view


def _scheme(shop: Shop) -> Scheme | None:
    """The settings in force; None before anything is published."""
    try:
        return settings(shop)
    except Refusal:
        return None


def _view(stored: Stored, scheme: Scheme | None) -> PersonView:
    site = next((one for one in scheme.sites if one.id == stored["site"]), None) if scheme else None
    return PersonView(
        person=stored["number"],
        name=stored["name"] or _("Person {number}").format(number=stored["number"]),
        role=stored["role"],
        site=stored["site"],
        site_title=(site.title if site else "") or str(stored["site"]),
        zone=site.zone if site else scheme.zone if scheme else "",
        language=stored["language"],
        left=stored["left_on"],
    )
