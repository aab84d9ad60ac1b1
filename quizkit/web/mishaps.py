"""What a person sees when something does not go: what it is, how to mend it, and a way on."""

from __future__ import annotations

import logging

from flask import Flask, Response, request
from werkzeug.exceptions import HTTPException

from quizkit.pages import page, sentence
from quizkit.shop import Forbidden, OutOfPlace, Refusal, StoreTrouble, Unknown, Waiting
from quizkit.web.bench import person, show
from quizkit.words import _

STATUS: tuple[tuple[type[Refusal], int], ...] = ((Unknown, 404), (Forbidden, 403), (StoreTrouble, 503), (Waiting, 429))


def catch(app: Flask) -> None:
    """Show every refusal and every error in the shop's own look."""
    app.register_error_handler(Refusal, refused)
    app.register_error_handler(HTTPException, http)
    app.register_error_handler(Exception, broken)


def refused(error: Refusal) -> Response:
    """A deed that was refused: nothing was written, and the way back is the page before."""
    status = next((number for kind, number in STATUS if isinstance(error, kind)), 409)
    what, mend = sentence(error.what), error.mend and sentence(error.mend)
    if isinstance(error, OutOfPlace):
        logging.getLogger("quizkit.web").error("%s %s", what, mend)
        what = _("A file of this shop is missing or cannot be used.")
        mend = _(
            "Nothing was half written. Tell whoever runs the server: its log says what is wrong and how to mend it."
        )
    if isinstance(error, StoreTrouble):
        return _bare(status, what, mend)
    return _told(status, what, mend)


def http(error: HTTPException) -> Response:
    """A request that cannot be served as it came."""
    status = error.code or 500
    what, mend = _words().get(status, (_("This did not work."), _("Go back and try again.")))
    if status == 400 and error.description == "token":
        what = _("This form has been open for too long, or was opened in another browser.")
        mend = _("Go back, load the page again, and send it once more. What you typed is still in the form.")
    return _told(status, what, mend)


def broken(error: Exception) -> Response:
    """A fault of ours: told plainly, written to the log, with nothing of its inside on the page."""
    logging.getLogger("quizkit.web").exception("a page failed", exc_info=error)
    what = _("Something broke on our side.")
    mend = _("Nothing was half written. Try it once more; if it stays, tell whoever runs the server what you did.")
    return _bare(500, what, mend)


def _told(status: int, what: str, mend: str) -> Response:
    """The page of a mishap in the shop's frame, or bare where the file gives no frame just now."""
    try:
        return show("mishap.html", status, what=what, mend=mend, back=back(), again=_leads_here())
    except Refusal:
        return _bare(status, what, mend)


def _bare(status: int, what: str, mend: str) -> Response:
    """The page of a mishap that asks nothing of the file: it may be the file that cannot be read or written."""
    look = {"language": "en", "shop": "quizkit", "static": "/static/", "links": [], "person": "", "token": ""}
    told = {"what": what, "mend": mend, "back": back(), "again": _leads_here()}
    html = page("mishap.html", look=look | {"invented": False}, token="", **told)
    return Response(html, status, mimetype="text/html")


def back() -> str:
    """Where the way back leads: the page that the request came from, if it is one of ours."""
    came = request.referrer or ""
    root = request.host_url
    return "/" + came[len(root) :].lstrip("/\\") if came.startswith(root) and came != request.url else "/"


def _leads_here() -> bool:
    """Whether the way to today's ticket ends where this page stands: it is then said to be another try."""
    return request.method == "GET" and request.path in ("/", "/sign-in")


def _signed_out() -> bool:
    """Whether the way on is the door; not so where the file cannot say who is signed in."""
    try:
        return person() is None
    except Refusal:
        return False


def _words() -> dict[int, tuple[str, str]]:
    out = _signed_out()
    return {
        400: (_("This request makes no sense to us."), _("Go back and try again.")),
        401: (_("You are signed out."), _("Sign in again; nothing that was written down is lost.")),
        403: (_("This is not yours to see or do."), _("Ask your trainer or manager if you need it.")),
        404: (
            _("There is no such page."),
            _("Check the address, or sign in.") if out else _("Check the address, or start from today's ticket."),
        ),
        405: (
            _("This address takes no such request."),
            _("Sign in, and start there.") if out else _("Start from today's ticket."),
        ),
        413: (_("That is too large."), _("A photo may have up to 5 MB. Take it smaller and send it again.")),
    }
