"""One request after the other: threads that work at once in one Python take it from each other all the time.

Several threads serve, so that nobody waits behind a slow page or a slow disk. But only one of them runs at any moment,
and at each read of the file another takes over: answers made at once cost the processor a good third more than the same
answers one after the other (`tests/bench/posting.py`).
"""

from __future__ import annotations

import threading
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

PATIENCE = 0.01
"""Seconds that a request waits for the one before it: most take a thousandth, and eight stand in line at most."""


def in_turn(app: WSGIApplication) -> WSGIApplication:
    """The app, begun for one request when the one before it is made, or after a short wait in any case.

    A courtesy and no lock: it keeps nothing apart that must not meet, and nobody waits for a page that takes long.
    """
    turn = threading.Lock()

    def begun(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        mine = turn.acquire(timeout=PATIENCE)
        try:
            return app(environ, start_response)
        finally:
            if mine:
                turn.release()

    return begun
