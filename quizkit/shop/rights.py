"""Entitlements: who may sign the sheets of a skill, by whose grant and on what basis."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quizkit.shop.evidence import events
from quizkit.shop.handle import Shop, Stored, note
from quizkit.shop.packs import current_pack, module_of, scheme_of, scheme_on
from quizkit.shop.people import day_at, here, manager, not_oneself, people, person_view
from quizkit.shop.refusal import Forbidden, Refusal
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.rights import Right, against_granting, founded_on, right_to_sign
from quizkit.words import _

SIGNING = ("trainer", "manager")
"""The roles that sign."""


@dataclass(frozen=True, slots=True)
class EntitlementView:
    """The right of a person to sign a skill's sheets. `active` is whether it is in force today."""

    number: int
    person: int
    name: str
    skill: str
    title: str
    starts: dt.date
    until: dt.date | None
    basis: str
    founding: bool
    granted_by: str
    ended: dt.date | None
    end_reason: str
    active: bool


def grant(
    shop: Shop,
    by: int,
    person: int,
    skill: str,
    *,
    now: dt.datetime,
    starts: dt.date | None = None,
    until: dt.date | None = None,
    basis: str = "",
    founding: bool = False,
) -> int:
    """Entitle somebody to sign the sheets of a skill.

    They are cleared in it themselves, or the grant is a founding one and `basis` says on what outside basis. Nobody
    entitles themselves, but for a founding grant in a shop with one manager and no other trainer.
    """
    with shop.deed(now):
        manager(shop, by)
        view = here(shop, person)
        module = module_of(current_pack(shop), skill)
        if not (founding and _alone(shop, by)):
            not_oneself(by, person)
        if view.role not in SIGNING:
            raise Refusal(
                _("{name} signs in with a PIN").format(name=view.name),
                _("make them a trainer first, with a passphrase"),
            )
        day = day_at(shop, view, now)
        begins = starts or day
        if until is not None and until < begins:
            raise Refusal(_("The last day lies before the first"), _("put the dates right"))
        against = against_granting(events(shop, person), scheme_of(shop), str(person), skill, day, founding, basis)
        if against:
            what = _("{name} cannot be entitled in {title}").format(name=view.name, title=module.scheme.title)
            raise Refusal(what, "; ".join(reason.words() for reason in against))
        return shop.add(
            "entitlement",
            by=by,
            seen_on=day,
            person=person,
            skill=skill,
            starts=begins,
            until=until,
            founding=founding,
            basis=note(basis),
        )


def end_entitlement(shop: Shop, by: int, entitlement: int, reason: str, *, now: dt.datetime) -> int:
    """End an entitlement from today; what was signed under it stands."""
    with shop.deed(now):
        manager(shop, by)
        stored = shop.get("entitlement", entitlement)
        if shop.row("entitlement_end", entitlement=entitlement) is not None:
            raise Refusal(_("This entitlement has ended already"), "")
        return shop.add(
            "entitlement_end",
            by=by,
            seen_on=day_at(shop, person_view(shop, stored["person"]), now),
            entitlement=entitlement,
            person=stored["person"],
            note=note(reason, needed=True),
        )


def entitlements(shop: Shop, *, now: dt.datetime, person: int | None = None) -> tuple[EntitlementView, ...]:
    """All entitlements ever granted, newest first; of one person where `person` says so."""
    who = {} if person is None else {"person": person}
    return tuple(_view(shop, row, now) for row in shop.rows("entitlement", newest=True, **who))


def entitled_on(shop: Shop, people: Sequence[int], day: dt.date) -> frozenset[int]:
    """Those of some people who are entitled on a day to sign the sheets of some skill."""
    rows = shop.rows("entitlement", person=people) if people else []
    ended = (
        {row["entitlement"] for row in shop.rows("entitlement_end", person=people) if row["seen_on"] <= day}
        if rows
        else ()
    )
    return frozenset(
        row["person"]
        for row in rows
        if row["id"] not in ended and row["starts"] <= day and (row["until"] is None or day <= row["until"])
    )


def right_of(shop: Shop, signer: int, skill: str, day: dt.date, learner: int | None = None) -> Right:
    """Whether somebody may sign a skill's sheets on a day, by which entitlement or why not.

    An entitlement rests while its holder is neither trainer nor manager: they sign in with a PIN, not a passphrase.
    """
    view = person_view(shop, signer)
    if view.left is not None or view.role not in SIGNING:
        return Right(None, (Reason(N_("only a trainer or a manager signs")),))
    whose = "" if learner is None else str(learner)
    return right_to_sign(events(shop, signer), scheme_of(shop), str(signer), skill, day, whose)


def entitled(shop: Shop, signer: int, learner: int, skill: str, days: tuple[dt.date, ...]) -> tuple[int, bool]:
    """The entitlement by which a signature counts, held on every one of the days, and whether it is a founding one.

    Raises Forbidden, with why not.
    """
    found = [right_of(shop, signer, skill, day, learner) for day in days]
    for right in found:
        if right.entitlement is None:
            why = "; ".join(reason.words() for reason in right.because)
            raise Forbidden(_("You may not sign this sheet"), why)
    last = found[-1].entitlement
    assert last is not None
    return int(last.id.partition(":")[2]), last.founding


def founding_words(shop: Shop, ids: Iterable[str]) -> tuple[str, ...]:
    """Founding entitlements (ids as standing names them) in words: whose, and on what outside basis."""
    rows = [shop.get("entitlement", id.partition(":")[2]) for id in ids]
    return tuple(f"{person_view(shop, row['person']).name}: {row['basis']}" for row in rows)


def founding_behind(shop: Shop, sheet: Stored) -> tuple[str, ...]:
    """The founding entitlements (ids) behind a sheet: the one it was signed by, or those that its signer's clearance
    rests on. Of a sheet that was observed first, those behind its signatures.
    """
    names = [sheet, *shop.rows("signature", sheet=sheet["id"])]
    signed = [row for row in names if row["entitlement"] is not None]
    own = [f"entitlement:{row['entitlement']}" for row in signed if row["founding"]]
    others = [row["done_by"] for row in signed if not row["founding"]]
    if not others:
        return tuple(dict.fromkeys(own))
    rows, day = events(shop), sheet["seen_on"]
    behind = [id for each in others for id in founded_on(rows, scheme_on(shop, day), str(each), sheet["skill"], day)]
    return tuple(dict.fromkeys([*own, *behind]))


def _alone(shop: Shop, by: int) -> bool:
    return not any(one.role in SIGNING and one.person != by for one in people(shop))


def _view(shop: Shop, row: Stored, now: dt.datetime) -> EntitlementView:
    person = person_view(shop, row["person"])
    end = shop.row("entitlement_end", entitlement=row["id"])
    day = day_at(shop, person, now)
    running = row["starts"] <= day and (row["until"] is None or day <= row["until"])
    return EntitlementView(
        number=row["id"],
        person=person.person,
        name=person.name,
        skill=row["skill"],
        title=scheme_of(shop).skill_title(row["skill"]) if row["skill"] in scheme_of(shop).by_id else row["skill"],
        starts=row["starts"],
        until=row["until"],
        basis=row["basis"],
        founding=row["founding"],
        granted_by=person_view(shop, row["done_by"]).name if row["done_by"] else "",
        ended=end["seen_on"] if end else None,
        end_reason=end["note"] if end else "",
        active=end is None and running and right_of(shop, person.person, row["skill"], day).holds,
    )
