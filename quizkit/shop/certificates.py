"""Certificates: dated statements that somebody holds a set of skills, each to be followed down to its evidence."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.pack.scheme import Certificate
from quizkit.pack.shown import day as day_words
from quizkit.shop.evidence import events
from quizkit.shop.handle import Shop, Stored, note
from quizkit.shop.packs import current_hash, pack_of, scheme_in, scheme_of, settings, zone_of
from quizkit.shop.people import day_at, here, may_see, not_oneself, person_view, trainer
from quizkit.shop.refusal import Forbidden, Refusal, Unknown
from quizkit.shop.rights import founding_words, right_of
from quizkit.shop.standings import StandingView, standing_view
from quizkit.standing.certificates import Holding, holding_of
from quizkit.standing.reasons import joined
from quizkit.standing.record import record
from quizkit.standing.rights import founded_on
from quizkit.standing.standing import WORDS, standing_of
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class SetSkill:
    """A skill of a set: where somebody stands with it."""

    skill: str
    title: str
    standing: StandingView


@dataclass(frozen=True, slots=True)
class SetView:
    """A set of skills and how far somebody is with it.

    `certificate` is the valid one they have, 0 for none; `issued` and `until` are its days.
    """

    id: str
    title: str
    says: str
    skills: tuple[SetSkill, ...]
    complete: bool
    missing: tuple[str, ...]
    certificate: int
    issued: dt.date | None
    until: dt.date | None


@dataclass(frozen=True, slots=True)
class CertificateSkill:
    """A skill as a certificate states it: cleared since and until when, and on what evidence."""

    skill: str
    title: str
    since: dt.date | None
    until: dt.date
    evidence: str


@dataclass(frozen=True, slots=True)
class CertificateView:
    """A certificate. `state` is "valid", "expired" or "withdrawn"; `head` the seal that stood when it was issued.

    `withdrawn` and `reason` say since when and why it was withdrawn, or ended before its day.

    `rests_on_founding` are the founding grants behind the sheets it rests on.
    """

    number: int
    person: int
    holder: str
    set: str
    title: str
    says: str
    skills: tuple[CertificateSkill, ...]
    issued: dt.date
    issued_at: dt.datetime
    until: dt.date
    zone: str
    issuer: str
    shop: str
    site: str
    head: str
    state: str
    withdrawn: dt.date | None
    reason: str
    says_not: str
    check_address: str
    signers: tuple[str, ...]
    rests_on_founding: tuple[str, ...]


def certificate_state(shop: Shop, viewer: int, person: int, *, now: dt.datetime) -> tuple[SetView, ...]:
    """How far somebody is with each set of skills of the shop."""
    may_see(shop, viewer, person)
    day = day_at(shop, person_view(shop, person), now)
    own = [row for row in shop.rows("certificate", person=person, newest=True) if _state(shop, row, day)[0] == "valid"]
    held = {row["set_id"]: row for row in reversed(own)}
    return tuple(_set(shop, one, _holding(shop, person, one.id, day), held) for one in settings(shop).certificates)


def issue_certificate(shop: Shop, by: int, person: int, set: str, *, now: dt.datetime) -> int:
    """Issue a certificate to somebody who holds every skill of a set today; valid to the earliest end of its parts.

    By a manager, or by a trainer entitled in every skill of the set; never to oneself.
    """
    with shop.deed(now):
        signer = trainer(shop, by)
        view = here(shop, person)
        not_oneself(by, person)
        day = day_at(shop, view, now)
        asked = _set_named(shop, set)
        if signer.role != "manager" and not all(right_of(shop, by, skill, day).holds for skill in asked.skills):
            raise Forbidden(
                _("Only a manager, or a trainer entitled in all its skills, issues this certificate"),
                _("ask a manager"),
            )
        holding = _holding(shop, person, set, day)
        if not holding.complete or holding.until is None:
            what = _("{name} does not hold all skills of {title}").format(name=view.name, title=asked.title)
            raise Refusal(what, "; ".join(reason.words() for reason in holding.missing))
        return shop.add(
            "certificate",
            by=by,
            seen_on=day,
            person=person,
            set_id=set,
            skills=_stated(shop, holding, day),
            valid_until=holding.until,
            head=shop.records.head().seal,
            pack=current_hash(shop),
        )


def withdraw_certificate(shop: Shop, by: int, certificate: int, reason: str, *, now: dt.datetime) -> int:
    """Withdraw a certificate, with a reason; its printed copies show as withdrawn on the shop's check page."""
    with shop.deed(now):
        trainer(shop, by)
        row = shop.get("certificate", certificate)
        if shop.row("certificate_end", certificate=row["id"]) is not None:
            raise Refusal(_("This certificate has been withdrawn already"), _("nothing more is to be done"))
        return shop.add(
            "certificate_end",
            by=by,
            seen_on=day_at(shop, person_view(shop, row["person"]), now),
            certificate=row["id"],
            person=row["person"],
            note=note(reason, needed=True),
        )


def certificate(shop: Shop, viewer: int, number: int, *, now: dt.datetime) -> CertificateView:
    """One certificate, for its holder, a trainer or a manager."""
    row = shop.get("certificate", number)
    may_see(shop, viewer, row["person"])
    return _view(shop, row, now)


def certificates(shop: Shop, viewer: int, *, now: dt.datetime) -> tuple[CertificateView, ...]:
    """All certificates ever issued, newest first; for trainers and managers."""
    trainer(shop, viewer)
    return tuple(_view(shop, row, now) for row in shop.rows("certificate", newest=True))


@dataclass(frozen=True, slots=True)
class CertificateCheck:
    """What the shop's check page tells a stranger: whether a printed certificate stands. No name, no reason."""

    number: int
    title: str
    state: str
    issued: dt.date
    until: dt.date
    shop: str


def check_certificate(shop: Shop, number: int, seal: str, *, now: dt.datetime) -> CertificateCheck:
    """Whether a printed certificate stands, for whoever has its number and the seal that is printed on it.

    Raises Unknown alike for a number that was never given out and for a seal that is not this certificate's.
    """
    row = shop.row("certificate", id=number) if 0 < number < 2**62 else None
    if row is None or row["head"] != seal.strip().lower():
        raise Unknown(_("This shop gave out no such certificate"), _("check the number and the seal"))
    view = _view(shop, row, now)
    return CertificateCheck(view.number, view.title, view.state, view.issued, view.until, view.shop)


def says_not() -> str:
    """What a certificate is not."""
    return _(
        "This shop trained and cleared its own technician. It is no accredited certification, no license, "
        "and no approval of any repair."
    )


def _set_named(shop: Shop, set: str) -> Certificate:
    for one in settings(shop).certificates:
        if one.id == set:
            return one
    known = ", ".join(one.id for one in settings(shop).certificates) or _("none")
    raise Unknown(
        _("There is no certificate '{set}'").format(set=set[:40]), _("the shop has: {known}").format(known=known)
    )


def _holding(shop: Shop, person: int, set: str, day: dt.date) -> Holding:
    scheme = scheme_of(shop)
    return holding_of(record(events(shop, person), scheme, str(person), day), scheme, set)


def _set(shop: Shop, one: Certificate, holding: Holding, held: dict[str, Stored]) -> SetView:
    scheme, own = scheme_of(shop), held.get(one.id)
    return SetView(
        id=one.id,
        title=one.title,
        says=one.says,
        skills=tuple(
            SetSkill(part.skill, scheme.skill_title(part.skill), standing_view(part)) for part in holding.parts
        ),
        complete=holding.complete,
        missing=joined(holding.missing),
        certificate=int(own["id"]) if own else 0,
        issued=own["seen_on"] if own else None,
        until=own["valid_until"] if own else None,
    )


def _stated(shop: Shop, holding: Holding, day: dt.date) -> list[dict[str, object]]:
    """The skills as the certificate keeps them, whatever the scheme says later."""
    rows, scheme = events(shop), scheme_of(shop)
    return [
        {
            "skill": part.skill,
            "title": scheme.skill_title(part.skill),
            "since": part.since.isoformat() if part.since else "",
            "until": until.isoformat() if (until := part.holds_until or part.until) else "",
            "evidence": list(part.evidence),
            "founding": list(founded_on(rows, scheme, part.person, part.skill, day)),
        }
        for part in holding.parts
    ]


def _state(shop: Shop, row: Stored, day: dt.date) -> tuple[str, dt.date | None, str]:
    """Whether a certificate stands, and where it was withdrawn or cut short, since when and why.

    It stands no longer than the clearances that it states: by what was asked when it was issued, and what is known now.
    """
    end = shop.row("certificate_end", certificate=row["id"])
    if end is not None:
        return "withdrawn", end["seen_on"], end["note"]
    if day > row["valid_until"]:
        return "expired", None, ""
    scheme = scheme_in(shop, row["pack"])
    found = record(events(shop, row["person"]), scheme, str(row["person"]), day)
    for stated in row["skills"]:
        own = standing_of(found, scheme, stated["skill"])
        if not own.clear:
            why = "; ".join(joined(own.because))
            words = _("{title}: {why}").format(title=stated["title"], why=why or _(WORDS[own.word]))
            return "withdrawn" if own.word == "withdrawn" else "expired", own.since, words
    return "valid", None, ""


def _view(shop: Shop, row: Stored, now: dt.datetime) -> CertificateView:
    scheme = pack_of(shop, row["pack"]).scheme
    asked = next(one for one in scheme.certificates if one.id == row["set_id"])
    holder = person_view(shop, row["person"])
    state, since, why = _state(shop, row, day_at(shop, holder, now))
    rows = [_row(shop, one) for one in row["skills"]]
    return CertificateView(
        number=row["id"],
        person=holder.person,
        holder=holder.name,
        set=row["set_id"],
        title=asked.title,
        says=asked.says,
        skills=tuple(rows),
        issued=row["seen_on"],
        issued_at=row["recorded_at"],
        until=row["valid_until"],
        zone=zone_of(shop, holder.site),
        issuer=person_view(shop, row["done_by"]).name,
        shop=scheme.name,
        site=holder.site_title,
        head=row["head"],
        state=state,
        withdrawn=since,
        reason=why,
        says_not=says_not(),
        check_address=_address(settings(shop).address, row),
        signers=tuple(dict.fromkeys(name for one in row["skills"] for name in _signers(shop, one["evidence"]))),
        rests_on_founding=founding_words(shop, dict.fromkeys(id for one in row["skills"] for id in one["founding"])),
    )


def _address(address: str, row: Stored) -> str:
    """The address of the shop's check page for a certificate, empty where the shop has none."""
    return f"{address.rstrip('/')}/c/{row['id']}/{row['head']}" if address else ""


def _row(shop: Shop, stated: dict[str, object]) -> CertificateSkill:
    since, evidence = str(stated["since"]), stated["evidence"]
    assert isinstance(evidence, list)
    return CertificateSkill(
        skill=str(stated["skill"]),
        title=str(stated["title"]),
        since=dt.date.fromisoformat(since) if since else None,
        until=dt.date.fromisoformat(str(stated["until"])),
        evidence=", ".join(_words(shop, one) for one in evidence),
    )


def _words(shop: Shop, evidence: str) -> str:
    """A row of evidence in a few words: what it is, and its day."""
    table, _colon, number = evidence.partition(":")
    row = shop.get(table, number)
    names = {"result": _("check"), "sheet": _("sheet"), "signature": _("signed sheet"), "remark": _("remarked check")}
    if table == "outside_proof":
        kind = str(row["kind"])
        names[table] = next((one.title for one in settings(shop).proofs if one.id == kind), kind).lower()
    return _("{what} of {day} (entry {row})").format(what=names[table], day=day_words(row["seen_on"]), row=number)


def _signers(shop: Shop, evidence: list[str]) -> list[str]:
    """Who signed the sheets that a certificate rests on."""
    found = []
    for one in evidence:
        table, _colon, number = one.partition(":")
        if table in ("sheet", "signature"):
            found.append(person_view(shop, shop.get(table, number)["done_by"]).name)
    return found
