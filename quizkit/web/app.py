"""The app factory: what stands around every request, and the blueprints."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from flask import Flask

from quizkit.pages import STATIC
from quizkit.web import (
    apprentice,
    bench,
    changes,
    desk,
    doors,
    exports,
    manager,
    mishaps,
    office,
    own,
    paper,
    plans,
    questions,
    reckon,
    stock,
    sums,
    teaching,
    tickets,
    trainer,
)
from quizkit.web.slim import beside

LARGEST_BODY = 6 * 1024 * 1024
"""Bytes of a request: a photo of a paper sheet fits, a flood does not."""


def create_app(
    path: Path, *, secret: bytes | None = None, now: Callable[[], datetime] | None = None, secure: bool = False
) -> Flask:
    """The app for one shop file.

    `secret` ties the forms to their reader (drawn anew where none is given: forms open at a restart are asked again),
    `now` tells the time (UTC), `secure` marks the cookies for TLS only.
    """
    app = Flask("quizkit.web", static_folder=str(STATIC), static_url_path="/static")
    app.config.update(
        SHOP=path,
        SECRET=secret or secrets.token_bytes(32),
        NOW=now or (lambda: datetime.now(UTC)),
        SECURE=secure,
        MAX_CONTENT_LENGTH=LARGEST_BODY,
        MAX_FORM_MEMORY_SIZE=512 * 1024,
        MAX_FORM_PARTS=400,
        SEND_FILE_MAX_AGE_DEFAULT=None,  # asked again each time: a page of today never meets the look of yesterday
    )
    app.view_functions["static"] = beside(STATIC)
    bench.stand_around(app)
    mishaps.catch(app)
    for area in (
        doors,
        apprentice,
        trainer,
        teaching,
        manager,
        office,
        desk,
        tickets,
        stock,
        paper,
        sums,
        questions,
        changes,
        reckon,
        plans,
        own,
        exports,
    ):
        app.register_blueprint(area.area)
    return app
