"""In and out: signing in with a PIN or a passphrase, sessions that end, and work that survives them."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.records import drop_stale
from quizkit.shop import secret as secrets
from quizkit.shop.delays import ADDRESS_MEMORY, KNOWN_FOR, Try, free_at
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.people import PersonView, arrive, person_view
from quizkit.shop.refusal import Refusal, Waiting
from quizkit.words import _, ngettext

IDLE = dt.timedelta(minutes=30)
"""A session that nobody has used for so long is over."""
ABSOLUTE = dt.timedelta(hours=10)
"""A session is over after a shift, used or not."""
TOUCH = dt.timedelta(minutes=1)
"""How stale the last use on file may be: a page view writes nothing more often than this."""
KEPT_FOR = max(KNOWN_FOR, ADDRESS_MEMORY)
"""How long sessions and tries to sign in stay on file."""
LONGEST_DRAFT = 200_000


@dataclass(frozen=True, slots=True)
class SignedIn:
    """A session: its token for the cookie, whose it is, and when it ends at the latest."""

    token: str
    person: PersonView
    until: dt.datetime


def sign_in(shop: Shop, person: int, secret: str, *, address: str, now: dt.datetime) -> SignedIn:
    """Open a session for somebody whose secret is right.

    Raises Waiting while the growing delay of the name or the address runs, Refusal where the secret is wrong. Both take
    as long for a person who is not there as for one who is.
    """
    free = free_at(_tries(shop, person, address, now), person, address, now)
    if free > now:
        seconds = max(1, -(-int((free - now).total_seconds() * 1000) // 1000))
        text = ngettext("try again in {count} second", "try again in {count} seconds", seconds).format(count=seconds)
        raise Waiting(_("Too many wrong tries"), text, free)
    stored = shop.row("person", number=person)
    here = stored is not None and stored["left_on"] is None
    right = secrets.fits(secret, (stored["secret"] or "") if stored is not None and here else "")
    with shop.deed(now):
        _keep_try(shop, person, address, right, now)
        if right:
            return _session(shop, person, address, now)
    raise _not_right(stored["role"] if stored is not None and here else "")


def _not_right(role: str) -> Refusal:
    """What the door says to a wrong secret: of the kind that the roster tells of everybody, and who may set another."""
    if role and not secrets.needs_pin(role):
        return Refusal(_("This passphrase is not right"), _("type it again; a manager can set a new one"))
    return Refusal(_("This PIN is not right"), _("type it again; a trainer or manager can set a new one"))


def session(shop: Shop, token: str, *, now: dt.datetime) -> PersonView | None:
    """Whose session a token is, or None once it is over. Using it keeps it from going idle."""
    kept = secrets.token_hash(token)
    found = arrive(shop, kept)
    if found is None or _over(found[0], now):
        return None
    stored, view = found
    if now - stored["touched_at"] >= TOUCH:
        with shop.deed(now):
            shop.records.keep("session", token=kept, touched_at=now)
    return None if view.left else view


def holder(shop: Shop, token: str) -> int | None:
    """Whose session a token is or was, over or not; None where it is not known any more."""
    stored = shop.row("session", token=secrets.token_hash(token))
    return stored["person"] if stored else None


def sign_out(shop: Shop, token: str, *, now: dt.datetime) -> None:
    """End a session; a token that is none is no trouble."""
    with shop.deed(now):
        shop.records.drop("session", token=secrets.token_hash(token))


def check_secret(shop: Shop, person: int, secret: str, *, now: dt.datetime, address: str = "signing") -> None:
    """Ask somebody who is signed in for their secret once more, before a signature. Slowed down like a sign-in."""
    if not proves(shop, person, secret, now=now, address=address):
        raise Refusal(_("The passphrase is not right"), _("nothing was signed: type it again"))


def proves(shop: Shop, person: int, secret: str, *, now: dt.datetime, address: str) -> bool:
    """Whether a secret is this person's; each try is kept, and slows the next ones down. Raises Waiting."""
    free = free_at(_tries(shop, person, address, now), person, address, now)
    if free > now:
        raise Waiting(_("Too many wrong tries"), _("try again in a minute"), free)
    stored = shop.row("person", number=person)
    right = secrets.fits(secret, (stored["secret"] or "") if stored else "")
    with shop.deed(now):
        _keep_try(shop, person, address, right, now)
    return right


def keep_draft(shop: Shop, person: int, what: str, values: Mapping[str, str], *, now: dt.datetime) -> None:
    """Keep half-done work under a name, over what was kept there before."""
    body = json.dumps(dict(values), ensure_ascii=False)
    if len(body) > LONGEST_DRAFT:
        raise Refusal(_("This is too much to keep half-done"), _("shorten the notes"))
    with shop.deed(now):
        shop.records.keep("draft", person=person, what=what, body=body, saved_at=now)


def draft(shop: Shop, person: int, what: str) -> Mapping[str, str]:
    """The half-done work kept under a name; nothing where there is none."""
    stored = shop.row("draft", person=person, what=what)
    return json.loads(stored["body"]) if stored else {}


def draft_kept(shop: Shop, person: int, what: str) -> dt.datetime | None:
    """When half-done work was last kept under a name; None where there is none."""
    stored = shop.row("draft", person=person, what=what)
    return stored["saved_at"] if stored else None


def drop_draft(shop: Shop, person: int, what: str, *, now: dt.datetime) -> None:
    """Let half-done work go."""
    with shop.deed(now):
        shop.records.drop("draft", person=person, what=what)


def _session(shop: Shop, person: int, address: str, now: dt.datetime) -> SignedIn:
    token = secrets.new_token()
    for old in shop.rows("session", person=person):
        if _over(old, now):
            shop.records.drop("session", token=old["token"])
    shop.records.keep(
        "session", token=secrets.token_hash(token), person=person, started_at=now, touched_at=now, address=address
    )
    return SignedIn(token, person_view(shop, person), now + ABSOLUTE)


def _over(stored: Stored, now: dt.datetime) -> bool:
    return bool(now - stored["touched_at"] > IDLE or now - stored["started_at"] > ABSOLUTE)


def _keep_try(shop: Shop, person: int, address: str, right: bool, now: dt.datetime) -> None:
    """Keep a try, and let those go that are too old to slow anybody down: nobody needs to know about them any more."""
    shop.records.keep("sign_in_try", person=person, address=address, tried_at=now, was_right=right)
    drop_stale(shop.records, now - KEPT_FOR)


def _tries(shop: Shop, person: int, address: str, now: dt.datetime) -> list[Try]:
    """The tries that may slow this one down: of the name, from the address, and of the name from the address.

    The last are asked for by themselves: however often others try the name elsewhere, a tablet stays known.
    """
    rows: list[Stored] = []
    for asked in ({"person": person}, {"address": address}, {"person": person, "address": address}):
        rows += shop.rows("sign_in_try", **asked, newest=True, limit=200)
    found = {row["number"]: Try(row["person"], row["address"], row["tried_at"], row["was_right"]) for row in rows}
    oldest = now - KEPT_FOR
    return [one for one in found.values() if one.at >= oldest]
