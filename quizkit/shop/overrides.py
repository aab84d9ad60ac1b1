"""What is done about a clearance besides signing: talks, lifted waits, withdrawals, proofs, struck rows."""

from __future__ import annotations

import datetime as dt

from quizkit.shop.gates import fails_of
from quizkit.shop.handle import Shop, Stored, chosen, note
from quizkit.shop.packs import current_pack, module_of, settings
from quizkit.shop.people import PersonView, day_at, here, manager, not_oneself, trainer
from quizkit.shop.refusal import Refusal, Unknown
from quizkit.shop.terms import term
from quizkit.standing.dates import after
from quizkit.words import _

COUNTING = ("sheet", "signature", "result", "outside_proof", "entitlement")
"""The tables by a row of which somebody counts as something."""
DESK = ("job", "stock")
"""The tables of the desk's own entries: nobody counts as anything by them."""
STRIKABLE = (*COUNTING, *DESK)
"""The tables a row of which can be struck."""


def record_talk(shop: Shop, by: int, person: int, skill: str, practised: str, *, now: dt.datetime) -> int:
    """Record that a trainer talked failed checks over with somebody, and what was practised."""
    with shop.deed(now):
        last, view = _failed(shop, by, person, skill)
        return shop.add(
            "talk",
            by=by,
            seen_on=day_at(shop, view, now),
            person=person,
            skill=skill,
            form=last["form"],
            note=note(practised, needed=True),
        )


def lift_wait(shop: Shop, by: int, person: int, skill: str, reason: str, *, now: dt.datetime) -> int:
    """Lift the wait after somebody's last failed check, with a reason."""
    with shop.deed(now):
        last, view = _failed(shop, by, person, skill)
        if shop.rows("lift", form=last["form"]):
            raise Refusal(_("This wait has been lifted already"), "")
        return shop.add(
            "lift",
            by=by,
            seen_on=day_at(shop, view, now),
            person=person,
            skill=skill,
            form=last["form"],
            note=note(reason, needed=True),
        )


def withdraw(
    shop: Shop, by: int, person: int, skill: str, reason: str, *, now: dt.datetime, seen_on: dt.date | None = None
) -> int:
    """Withdraw somebody's clearance in a skill, with a reason; it stands until a row ends it."""
    with shop.deed(now):
        trainer(shop, by)
        not_oneself(by, person)
        view = here(shop, person)
        module_of(current_pack(shop), skill)
        if standing_withdrawal(shop, person, skill) is not None:
            raise Refusal(_("The clearance is withdrawn already"), _("end that withdrawal first"))
        return shop.add(
            "withdrawal",
            by=by,
            seen_on=past(shop, view, seen_on, now),
            person=person,
            skill=skill,
            note=note(reason, needed=True),
        )


def end_withdrawal(
    shop: Shop, by: int, withdrawal: int, reason: str, *, now: dt.datetime, restores: bool = False
) -> int:
    """End a withdrawal with a reason; `restores` lets earlier evidence count again."""
    with shop.deed(now):
        manager(shop, by)
        stored = shop.get("withdrawal", withdrawal)
        not_oneself(by, stored["person"])
        if shop.row("withdrawal_end", withdrawal=withdrawal) is not None:
            raise Refusal(_("This withdrawal has ended already"), "")
        return shop.add(
            "withdrawal_end",
            by=by,
            seen_on=day_at(shop, here(shop, stored["person"]), now),
            withdrawal=withdrawal,
            person=stored["person"],
            restores=restores,
            note=note(reason, needed=True),
        )


def standing_withdrawal(shop: Shop, person: int, skill: str) -> Stored | None:
    """The withdrawal that stands over somebody's skill, or None."""
    for row in shop.rows("withdrawal", person=person, skill=skill, newest=True):
        if shop.row("withdrawal_end", withdrawal=row["id"]) is None:
            return row
    return None


def see_proof(
    shop: Shop,
    by: int,
    person: int,
    kind: str,
    until: dt.date | None,
    *,
    now: dt.datetime,
    seen_on: dt.date | None = None,
    detail: str = "",
) -> int:
    """Record an outside proof whose paper `by` has seen. `seen_on` is the paper's date.

    Without `until` it holds as long as the shop's settings say. Only the one detail that they name is kept.
    """
    with shop.deed(now):
        trainer(shop, by)
        not_oneself(by, person)
        view, known = here(shop, person), {proof.id: proof for proof in settings(shop).proofs}
        proof = known[chosen(tuple(known), kind, _("outside proof"))]
        day = past(shop, view, seen_on, now)
        if until is None and proof.valid is None:
            raise Refusal(_("{title}: the last day is missing").format(title=proof.title), _("copy it from the paper"))
        if detail and not proof.detail:
            raise Refusal(_("{title}: nothing but yes and until is kept").format(title=proof.title), _("leave it out"))
        last = until or (after(day, term(proof.valid)) if proof.valid else None)
        if last is not None and last < day:
            raise Refusal(_("The last day lies before the paper's date"), _("put the dates right"))
        return shop.add(
            "outside_proof",
            by=by,
            seen_on=day,
            person=person,
            kind=kind,
            until=last,
            detail=note(detail)[:120] or None,
            paper_seen_by=by,
        )


def strike(shop: Shop, by: int, row: str, reason: str, *, now: dt.datetime) -> int:
    """Withdraw a row that was wrong ("sheet:4"), by a new row with a reason: it counts no more, and stays readable.

    Nobody strikes a row by which they count as something themselves.
    """
    with shop.deed(now):
        view = manager(shop, by)
        table, _colon, number = row.partition(":")
        if table not in STRIKABLE:
            raise Unknown(_("There is no such row to strike"), _("open it from the evidence"))
        stored = shop.get(table, number)
        if table in COUNTING:
            not_oneself(by, stored["person"])
            view = here(shop, stored["person"])
        if shop.row("strike", of_table=table, of_row=stored["id"]) is not None:
            raise Refusal(_("This row has been struck already"), "")
        return shop.add(
            "strike",
            by=by,
            seen_on=day_at(shop, view, now),
            of_table=table,
            of_row=stored["id"],
            person=stored["person"],
            note=note(reason, needed=True),
        )


def past(shop: Shop, person: PersonView, day: dt.date | None, now: dt.datetime) -> dt.date:
    """The day on which something was seen: today at the site unless said; never one to come."""
    today = day_at(shop, person, now)
    if day is not None and day > today:
        raise Refusal(_("This day is still to come"), _("put the date right"))
    return day or today


def _failed(shop: Shop, by: int, person: int, skill: str) -> tuple[Stored, PersonView]:
    """Somebody's last failed check in a skill, for a trainer who is not that person."""
    trainer(shop, by)
    not_oneself(by, person)
    view = here(shop, person)
    last = fails_of(shop, module_of(current_pack(shop), skill), person).last
    if last is None:
        raise Refusal(
            _("{name} has no failed check here").format(name=view.name), _("there is nothing to talk over or lift")
        )
    return last, view
