"""What stands around every request: the open shop, who is signed in, the token of forms, the headers."""

from __future__ import annotations

import hashlib
import hmac
import re
import secrets
from collections.abc import Callable, Iterable
from datetime import datetime
from functools import lru_cache
from typing import TYPE_CHECKING, Any, cast

from flask import Flask, Response, abort, current_app, g, request

from quizkit import shop as deeds
from quizkit.pages import page, sentence
from quizkit.shop import PersonView, Refusal, Shop
from quizkit.web.slim import slim
from quizkit.words import _

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment
    from werkzeug.datastructures import Headers

SEAT = "seat"
"""The cookie of a browser, signed in or not: a form's token is tied to it."""
KEY = "key"
"""The cookie of a session."""

POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
PADDED = hashlib.sha256().digest_size
"""Bytes of a form's token, and of the pad under which it is written."""
HEADERS = (
    ("Content-Security-Policy", POLICY),
    ("X-Content-Type-Options", "nosniff"),
    ("X-Frame-Options", "DENY"),
    ("Referrer-Policy", "same-origin"),
)
"""What every answer carries."""
LASTING = (("Strict-Transport-Security", "max-age=31536000"),)
"""What it carries besides where TLS stands in front."""
_PLAIN = re.compile(r"/[a-z0-9/-]*", re.ASCII)
"""An address that stands in a header as it is."""
LARGEST_FORM = 1024 * 1024
"""Bytes of a form without a file."""
TEACHING = ("trainer", "manager")
"""The roles that see other people's records."""


def stand_around(app: Flask) -> None:
    """Hang what every request needs before and after the views."""
    app.before_request(_arrive)
    app.after_request(_leave)
    app.wsgi_app = _dressed(app.wsgi_app, secure=bool(app.config["SECURE"]))  # type: ignore[assignment, method-assign]
    app.teardown_appcontext(_rest)
    app.extensions["shops"] = []


def shop() -> Shop:
    """The shop of this request.

    Shops stay open between requests, since opening costs more than most pages; the one that was used last is taken, by
    whichever thread, since it knows the file best. It is opened anew, and so held to its tables and triggers, wherever
    somebody changed these or put another file in its place.
    """
    found = cast("Shop | None", g.get("shop"))
    if found is None:
        idle = cast(list[Shop], current_app.extensions["shops"])
        opened = _last(idle)
        if opened is not None and not opened.stands():
            opened.close()
            opened = None
        found = g.shop = opened or deeds.open_shop(current_app.config["SHOP"], handed_on=True)
    return found


def _last(idle: list[Shop]) -> Shop | None:
    """The shop that was used last, out of those that nobody uses just now. One step, so that no two get the same."""
    try:
        return idle.pop()
    except IndexError:
        return None


def now() -> datetime:
    """The moment of this request, the same all through it."""
    moment = cast("datetime | None", g.get("now"))
    if moment is None:
        moment = g.now = current_app.config["NOW"]()
    return moment


def person() -> PersonView | None:
    """Who is signed in, or None."""
    found = cast("PersonView | None", g.get("person"))
    if found is None and "person" not in g:
        token = held(KEY)
        found = g.person = deeds.session(shop(), token, now=now()) if token else None
    return found


def me() -> int:
    """The number of who is signed in; the view's decorator has seen to it that somebody is."""
    found = person()
    if found is None:
        abort(401)
    return found.person


def form_token() -> str:
    """The token that a form of this browser carries back, written otherwise on each page.

    A pad drawn anew, and the token under that pad: a page's compressed length says nothing about the token then.
    """
    if "token" not in g:
        pad = secrets.token_bytes(PADDED)
        g.token = (pad + _under(pad, _token())).hex()
    return cast(str, g.token)


def _token() -> bytes:
    return _token_of(cast(bytes, current_app.config["SECRET"]), cast(str, g.seat))


@lru_cache(maxsize=4096)
def _token_of(secret: bytes, seat: str) -> bytes:
    """The token of a browser: the same on each of its requests, so worked out once for those that are about."""
    return hmac.digest(secret, seat.encode(), "sha256")


def _under(pad: bytes, text: bytes) -> bytes:
    return bytes(one ^ other for one, other in zip(pad, text, strict=True))


def _is_ours(sent: str) -> bool:
    """Whether a form brought back the token of its browser."""
    try:
        raw = bytes.fromhex(sent)
    except ValueError:
        return False
    return len(raw) == 2 * PADDED and hmac.compare_digest(_under(raw[:PADDED], raw[PADDED:]), _token())


def show(template: str, /, status: int = 200, here: str = "", **values: object) -> Response:
    """A page of the shop with its frame. `here` is the address of the place in the row of places."""
    look = {
        "language": "en",
        "shop": deeds.shop_name(shop()),
        "static": "/static/",
        "links": _places(here),
        "person": (who.name if (who := person()) else ""),
        "token": form_token(),
        "invented": not deeds.settings(shop()).shelf_is_ours,
        "zone": zone(),
        "today": now(),
    }
    return Response(page(template, look=look, token=look["token"], **values), status, mimetype="text/html")


def zone() -> str:
    """The zone of who reads: that of their site, the shop's for a stranger."""
    who = person()
    sites = {site.id: site.zone for site in deeds.sites(shop())} if who else {}
    return sites.get(who.site if who else "") or deeds.settings(shop()).zone


class _Onward(Response):
    """On to an address that needs no encoding. It has nothing that Werkzeug would look for on its way out."""

    def get_wsgi_headers(self, environ: object) -> Headers:
        """The headers as they are."""
        return self.headers


def onward(address: str) -> Response:
    """On to another of our own pages after a form: Flask's own way there costs as much as the marking of an answer."""
    if _PLAIN.fullmatch(address):
        return _Onward(status=303, headers={"Location": address, "Content-Length": "0"}, mimetype="text/html")
    return Response(status=303, headers={"Location": address}, mimetype="text/html")


def said(error: Refusal) -> str:
    """A refusal as full sentences, for a page that stays open."""
    return " ".join(sentence(part) for part in (error.what, error.mend) if part)


def _places(here: str) -> list[dict[str, object]]:
    who = person()
    places: list[tuple[str, str]] = []
    if who is not None:
        places.append(("/", _("Today")))
    if who is not None and who.role in TEACHING:
        places += [("/sheets", _("Sheets")), ("/matrix/", _("Matrix")), ("/jobs", _("Jobs today"))]
        places += [("/cover", _("Cover")), ("/office", _("Office"))]
    elif who is not None:
        places.append(("/tickets", _("Tickets")))
    places.append(("/sums", _("Bench sums")))
    return [{"href": href, "words": words, "here": here == href} for href, words in places]


def _arrive() -> None:
    seat = held(SEAT)
    if len(seat) != 43 or not seat.isascii():
        seat, g.new_seat = secrets.token_urlsafe(32), True
    g.seat = seat
    if request.method in ("GET", "HEAD", "OPTIONS"):
        return
    if request.mimetype != "multipart/form-data":  # no photo and no list: read in one piece, however many fields
        request.max_content_length = LARGEST_FORM
    if not _is_ours(request.form.get("token", "")):
        abort(400, "token")


def _dressed(app: WSGIApplication, *, secure: bool) -> WSGIApplication:
    """The app with the headers of every answer, put on where it leaves: nothing goes out without them."""
    dress = [*HEADERS, *(LASTING if secure else ())]

    def dressed(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        def start(status: str, headers: list[tuple[str, str]], *error: Any) -> Callable[[bytes], object]:
            return start_response(status, headers + dress, *error)

        return app(environ, start)

    return dressed


def _leave(response: Response) -> Response:
    if request.endpoint != "static":
        response.headers["Cache-Control"] = "no-store"
    if g.get("new_seat"):
        keep(response, SEAT, g.seat)
    return slim(response)


def held(name: str) -> str:
    """What this browser holds in one of our cookies; nothing where it has none."""
    return request.cookies.get(_named(name), "")


def keep(response: Response, name: str, value: str) -> None:
    """Set one of our cookies: for this site's own pages only, out of reach of scripts."""
    secure = bool(current_app.config["SECURE"])
    response.set_cookie(_named(name), value, httponly=True, samesite="Strict", secure=secure, path="/")


def let_go(response: Response, name: str) -> None:
    """Take one of our cookies back."""
    secure = bool(current_app.config["SECURE"])
    response.delete_cookie(_named(name), httponly=True, samesite="Strict", secure=secure, path="/")


def _named(name: str) -> str:
    """With TLS in front the name itself tells browsers that no other host may have set it."""
    return f"__Host-{name}" if current_app.config["SECURE"] else name


def _rest(error: BaseException | None) -> None:
    """Leave the shop open for the next request; after a fault it is closed."""
    opened = g.pop("shop", None)
    if opened is None:
        return
    if error is None:
        current_app.extensions["shops"].append(opened)
    else:
        opened.close()
