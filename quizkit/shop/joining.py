"""Joining, moving, leaving: the deeds about people themselves, each one on record."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from quizkit.records import people as kept
from quizkit.shop import secret as secrets
from quizkit.shop.doors import proves
from quizkit.shop.handle import Shop, chosen, note
from quizkit.shop.packs import settings, sites
from quizkit.shop.people import LONGEST_NAME, PersonView, day_at, here, manager, trainer
from quizkit.shop.refusal import Forbidden, Refusal, WrongSecret
from quizkit.standing.dates import local_day
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class PersonAdded:
    """Somebody new, with the PIN or passphrase to hand over (it is not kept anywhere else)."""

    number: int
    name: str
    secret: str


@dataclass(frozen=True, slots=True)
class RowProblem:
    """What is wrong with a row of a list, counted from 1."""

    row: int
    what: str
    mend: str


@dataclass(frozen=True, slots=True)
class PeopleAdded:
    """Either everybody of a list was added, or nobody and here is why."""

    added: tuple[PersonAdded, ...]
    problems: tuple[RowProblem, ...]


@dataclass(frozen=True, slots=True)
class Erased:
    """Somebody has left, on this day."""

    person: int
    left: dt.date


def add_person(
    shop: Shop, *, name: str, role: str, site: str, secret: str, by: int | None, now: dt.datetime, language: str = ""
) -> int:
    """Add somebody and give their number. `by` is a manager; None only for the very first person, who must be one."""
    keep = _kept(role, secret)
    with shop.deed(now):
        if by is not None:
            manager(shop, by)
        elif not shop.count("person") and role != "manager":
            what = _("The first person of a shop is its manager, and nobody has been added yet")
            raise Forbidden(what, _("add one at the machine: quizkit person add --shop FILE --role manager --name …"))
        elif shop.count("person"):
            raise Forbidden(_("Only a manager adds people"), _("sign in as a manager"))
        return _add(shop, name, role, site, keep, by, now, language)


def add_people(shop: Shop, rows: Sequence[Mapping[str, str]], *, by: int, now: dt.datetime) -> PeopleAdded:
    """Add everybody of a list (name, role, site, and secret, drawn where blank), or nobody if a row is wrong."""
    manager(shop, by)
    problems: list[RowProblem] = []
    seen = {one["name"].casefold() for one in shop.rows("person") if one["name"]}
    ready = [_row(shop, number, row, seen, problems) for number, row in enumerate(rows, 1)]
    if problems:
        return PeopleAdded((), tuple(problems))
    # A slow hash for each, before the deed: nobody else waits for the file meanwhile.
    keeps = [_kept(role, secret) for _name, role, _site, secret in ready]
    with shop.deed(now):
        numbers = [
            _add(shop, name, role, site, keep, by, now, "")
            for (name, role, site, _secret), keep in zip(ready, keeps, strict=True)
        ]
    return PeopleAdded(
        tuple(PersonAdded(number, row[0], row[3]) for number, row in zip(numbers, ready, strict=True)), ()
    )


def change_person(
    shop: Shop,
    person: int,
    *,
    by: int,
    now: dt.datetime,
    role: str | None = None,
    site: str | None = None,
    language: str | None = None,
) -> None:
    """Change somebody's role, site or language. A new role with another kind of secret needs a reset of it as well."""
    with shop.deed(now):
        view = here(shop, person)
        if by != person or role is not None or site is not None:
            manager(shop, by)
        if role is not None:
            chosen(secrets.ROLES, role, _("role"))
            _keep_a_manager(shop, view, role)
        if site is not None:
            chosen([one.id for one in sites(shop)], site, _("site"))
        day = day_at(shop, view, now)
        kept.move_person(shop.records, person, seen_on=day, done_by=by, role=role, site=site)
        if language is not None:
            kept.set_language(shop.records, person, language)


def rename_person(shop: Shop, person: int, name: str, *, by: int, now: dt.datetime) -> None:
    """Change somebody's name; the number stays."""
    with shop.deed(now):
        view = here(shop, person)
        manager(shop, by)
        kept.rename_person(shop.records, person, _name(name), seen_on=day_at(shop, view, now), done_by=by)


def reset_secret(shop: Shop, person: int, secret: str, reason: str, *, by: int | None, now: dt.datetime) -> None:
    """Give somebody a new PIN or passphrase; who did it and why is evidence, and their sessions end.

    A trainer resets a PIN, a manager any. `by` None is the way back from the machine itself, for the last manager.
    """
    keep = _new_secret(_may_reset(shop, person, by), secret)
    with shop.deed(now):
        view = _may_reset(shop, person, by)
        kept.set_secret(shop.records, person, keep)
        way = "machine" if by is None else "self" if by == person else "person"
        shop.add(
            "pin_reset",
            by=by,
            seen_on=day_at(shop, view, now),
            person=person,
            way=way,
            note=note(reason, needed=True),
        )


def change_own_secret(shop: Shop, person: int, old: str, new: str, *, now: dt.datetime) -> None:
    """Change one's own PIN or passphrase; the old one is asked for, and all sessions end.

    Wrong tries slow the next ones down, as at the door: who found an open session must not find the PIN with it.
    """
    keep = _new_secret(here(shop, person), new)
    if not proves(shop, person, old, now=now, address="own page"):
        raise WrongSecret(_("The old one is not right"), _("type the old one again, or have it reset"))
    with shop.deed(now):
        view = here(shop, person)
        kept.set_secret(shop.records, person, keep)
        shop.add("pin_reset", by=person, seen_on=day_at(shop, view, now), person=person, way="self", note=None)


def _may_reset(shop: Shop, person: int, by: int | None) -> PersonView:
    """The person whose secret is reset, if whoever does it may."""
    view = here(shop, person)
    if by is not None:
        if secrets.needs_pin(view.role):
            trainer(shop, by)
        else:
            manager(shop, by)
    return view


def _new_secret(person: PersonView, secret: str) -> str:
    """A secret as it is kept, if it is good enough. Slow, and so before the deed: nobody waits for the file."""
    secrets.approve(person.role, secret)
    return secrets.kept(secret)


def leave(shop: Shop, person: int, *, by: int, now: dt.datetime) -> Erased:
    """Somebody leaves: name, notes and photos are erased, the evidence stays under the number."""
    with shop.deed(now):
        view = here(shop, person)
        manager(shop, by)
        _keep_a_manager(shop, view, "")
        day = day_at(shop, view, now)
        kept.erase_person(shop.records, person, seen_on=day, done_by=by)
    kept.forget(shop.records)
    return Erased(person, day)


def _kept(role: str, secret: str) -> str:
    chosen(secrets.ROLES, role, _("role"))
    secrets.approve(role, secret)
    return secrets.kept(secret)


def _add(
    shop: Shop, name: str, role: str, site: str, keep: str, by: int | None, now: dt.datetime, language: str
) -> int:
    tidy = _new_name(name, {(one["name"] or "").casefold() for one in shop.rows("person")})
    chosen([one.id for one in sites(shop)], site, _("site"))
    zone = next(one.zone for one in sites(shop) if one.id == site)
    return kept.add_person(
        shop.records,
        name=tidy,
        role=role,
        site=site,
        language=language or settings(shop).language,
        secret=keep,
        seen_on=local_day(now, zone),
        done_by=by,
    )


def _row(
    shop: Shop, number: int, row: Mapping[str, str], seen: set[str], problems: list[RowProblem]
) -> tuple[str, str, str, str]:
    """A row of a list made ready; what is wrong with it goes to `problems`."""
    known = [one.id for one in sites(shop)]
    name, role = row.get("name", ""), row.get("role", "").strip().casefold() or "apprentice"
    site, secret = row.get("site", "").strip() or known[0], row.get("secret", "").strip()
    try:
        name = _new_name(name, seen)
        seen.add(name.casefold())
        chosen(secrets.ROLES, role, _("role"))
        chosen(known, site, _("site"))
        secret = secret or (secrets.drawn_pin() if secrets.needs_pin(role) else secrets.drawn_passphrase())
        secrets.approve(role, secret)
    except Refusal as error:
        problems.append(RowProblem(number, error.what, error.mend))
    return name, role, site, secret


def _new_name(name: str, taken: Collection[str]) -> str:
    tidy = _name(name)
    if tidy.casefold() in taken:
        raise Refusal(_("There is a {name} already").format(name=tidy), _("add what tells them apart"))
    return tidy


def _name(name: str) -> str:
    tidy = " ".join("".join(sign for sign in name if sign.isprintable()).split())
    if not tidy:
        raise Refusal(_("The name is missing"), _("type the name that people know"))
    if len(tidy) > LONGEST_NAME:
        raise Refusal(_("This name is too long"), _("keep it to {count} characters").format(count=LONGEST_NAME))
    return tidy


def _keep_a_manager(shop: Shop, view: PersonView, role: str) -> None:
    """Refuse to leave the shop without any manager."""
    others = shop.rows("person", role="manager", left_on=None)
    if view.role == "manager" and role != "manager" and len(others) < 2:
        raise Refusal(_("{name} is the last manager").format(name=view.name), _("make somebody else a manager first"))
