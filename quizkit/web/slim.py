"""Large pages travel compressed: the matrix of a whole shop reaches a tablet over the shop's wireless in a tenth of it.

What a compressed length could tell somebody who listens is kept from telling anything: see 'TLS in front' in
DEVELOPERS.md. Files to take away and small pages go as they are. The stylesheets and scripts hold nothing of anybody:
they are compressed once, when the server starts, and as hard as it goes.
"""

from __future__ import annotations

import gzip
import hashlib
import mimetypes
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from flask import Response, current_app, request

LEAST = 32 * 1024
"""Bytes of a page from which on it is worth the while; nearly all pages are smaller."""
LEVEL = 6
"""How hard to press: the hardest takes the processor five times as long, and saves the matrix a twelfth."""

LEAST_BESIDE = 1024
"""Bytes of a stylesheet or script from which on it is worth the while."""


@dataclass(frozen=True, slots=True)
class Pressed:
    """A file beside the pages as gzip, with a tag of its own: a cache may hold both forms of a file."""

    kind: str
    body: bytes
    tag: str


def beside(folder: Path) -> Callable[[str], Response]:
    """The view of the files that stand beside the pages: as gzip for a browser that takes it, else as they are."""
    pressed = {path.name: _pressed(path) for path in folder.iterdir() if path.stat().st_size >= LEAST_BESIDE}

    def static(filename: str) -> Response:
        kept = pressed.get(filename)
        if kept is None:
            return current_app.send_static_file(filename)
        response = _as_kept(kept) if _takes_gzip() else current_app.send_static_file(filename)
        response.vary.add("Accept-Encoding")
        return response

    return static


def _pressed(path: Path) -> Pressed:
    body = gzip.compress(path.read_bytes(), 9, mtime=0)
    kind = mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return Pressed(kind, body, hashlib.sha256(body).hexdigest()[:24])


def _as_kept(kept: Pressed) -> Response:
    response = Response(kept.body, mimetype=kept.kind)
    response.headers["Content-Encoding"] = "gzip"
    response.cache_control.no_cache = True  # asked again each time, and then told that it is the same
    response.set_etag(kept.tag)
    response.make_conditional(request)
    return response


def _takes_gzip() -> bool:
    return request.accept_encodings.quality("gzip") > 0


def slim(response: Response) -> Response:
    """A large page as gzip for a browser that takes it; everything else untouched."""
    if response.status_code != 200 or response.mimetype != "text/html" or response.direct_passthrough:
        return response
    whole = response.get_data()
    if len(whole) < LEAST:
        return response
    response.vary.add("Accept-Encoding")
    if _takes_gzip():
        response.set_data(gzip.compress(whole, LEVEL, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    return response
