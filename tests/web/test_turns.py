"""Requests are made one after the other where they are quick, and nobody waits for one that is not."""

import threading
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any

import pytest
from werkzeug.test import create_environ, run_wsgi_app

from quizkit.web import turns

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment


def ask(app: Any, path: str) -> bytes:
    """The body of an answer."""
    chunks, _status, _headers = run_wsgi_app(app, create_environ(path), buffered=True)
    return b"".join(chunks)


class Kitchen:
    """An app that counts how many requests are in it at once; `/slow` waits until it is let go."""

    def __init__(self) -> None:
        self.inside = 0
        self.most = 0
        self.begun, self.go_on = threading.Event(), threading.Event()

    def __call__(self, environ: "WSGIEnvironment", start_response: "StartResponse") -> Iterable[bytes]:
        self.inside += 1
        self.most = max(self.most, self.inside)
        try:
            if environ["PATH_INFO"] == "/broken":
                raise ZeroDivisionError
            if environ["PATH_INFO"] == "/slow":
                self.begun.set()
                assert self.go_on.wait(20)
            start_response("200 OK", [])
            return [environ["PATH_INFO"].encode()]
        finally:
            self.inside -= 1


def test_nobody_waits_for_a_request_that_takes_long() -> None:
    kitchen = Kitchen()
    app = turns.in_turn(kitchen)
    with ThreadPoolExecutor(1) as other:
        slow = other.submit(ask, app, "/slow")
        assert kitchen.begun.wait(20)
        assert [ask(app, f"/{number}") for number in range(3)] == [b"/0", b"/1", b"/2"]
        assert not slow.done() and kitchen.most == 2
        kitchen.go_on.set()
        assert slow.result() == b"/slow"


def test_the_next_begins_when_the_one_before_is_made_however_it_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(turns, "PATIENCE", 20)
    kitchen = Kitchen()
    app = turns.in_turn(kitchen)
    with pytest.raises(ZeroDivisionError):
        ask(app, "/broken")
    with ThreadPoolExecutor(2) as others:
        slow = others.submit(ask, app, "/slow")
        assert kitchen.begun.wait(20)
        second = others.submit(ask, app, "/second")
        kitchen.go_on.set()
        assert (slow.result(), second.result()) == (b"/slow", b"/second")
    assert kitchen.most == 1
