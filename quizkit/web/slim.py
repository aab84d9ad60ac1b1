"""Large pages travel compressed: the matrix of a whole shop reaches a tablet over the shop's wireless in a tenth of it.

What a compressed length could tell somebody who listens is kept from telling anything: see 'TLS in front' in
DEVELOPERS.md. Files to take away and small pages go as they are.
"""

from __future__ import annotations

import gzip

from flask import Response, request

LEAST = 32 * 1024
"""Bytes of a page from which on it is worth the while; nearly all pages are smaller."""
LEVEL = 6
"""How hard to press: the hardest takes the processor five times as long, and saves the matrix a twelfth."""


def slim(response: Response) -> Response:
    """A large page as gzip for a browser that takes it; everything else untouched."""
    if response.status_code != 200 or response.mimetype != "text/html" or response.direct_passthrough:
        return response
    whole = response.get_data()
    if len(whole) < LEAST:
        return response
    response.vary.add("Accept-Encoding")
    if request.accept_encodings.quality("gzip") > 0:
        response.set_data(gzip.compress(whole, LEVEL, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    return response
