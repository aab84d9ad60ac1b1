"""Pictures and links of lessons: found, allowed, and carried in the pack."""

from __future__ import annotations

import base64
import posixpath
from pathlib import Path
from urllib.parse import unquote

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.prose import Link, is_relative
from quizkit.authoring.source import Source
from quizkit.pack.model import Image
from quizkit.words import _

TYPES = {"png": "image/png", "jpg": "image/jpeg", "jpeg": "image/jpeg", "gif": "image/gif", "webp": "image/webp"}
_BEGINNINGS = {
    "image/png": (b"\x89PNG",),
    "image/jpeg": (b"\xff\xd8\xff",),
    "image/gif": (b"GIF8",),
    "image/webp": (b"RIFF",),
}
LARGEST = 2_000_000


def check_links(
    folder: Path, source: Source, links: tuple[Link, ...], lessons: frozenset[str]
) -> tuple[tuple[Image, ...], tuple[Diagnostic, ...]]:
    """The pictures that a lesson file shows, and what is wrong with its links and pictures.

    `lessons` are the paths of all lesson files below the content folder.
    """
    images: list[Image] = []
    problems: list[Diagnostic] = []
    for link in links:
        is_image = link.tag == "img"
        found = _image(folder, source, link.address) if is_image else _link(source, link.address, lessons)
        if isinstance(found, Image):
            images.append(found)
        elif found is not None:
            problems.append(found)
    return tuple(images), tuple(problems)


def _problem(source: Source, address: str, what: str, mend: str) -> Diagnostic:
    """A problem at the first place where the address stands."""
    for number, line in enumerate(source.lines, 1):
        column = line.find(f"({address}")
        if column >= 0:
            return source.problem("K04", Spot(number, column + 2, len(address)), what, mend)
    return source.problem("K04", Spot(), what, mend)


def _link(source: Source, address: str, lessons: frozenset[str]) -> Diagnostic | None:
    if address.startswith(("https:", "http:", "mailto:", "#")):
        return None
    if not is_relative(address):
        mend = _("link to a lesson beside this one, or to a page that begins with https://")
        return _problem(source, address, _("this link leads nowhere"), mend)
    target = posixpath.normpath(posixpath.join(posixpath.dirname(source.path), unquote(address.split("#")[0])))
    if target in lessons:
        return None
    return _problem(
        source, address, _("there is no lesson '{path}'").format(path=target[:80]), _("link to the file of a lesson")
    )


def _image(folder: Path, source: Source, address: str) -> Image | Diagnostic:
    module = posixpath.dirname(source.path)
    path = posixpath.normpath(unquote(address))
    ending = path.rsplit(".", 1)[-1].lower()
    if not is_relative(address) or path.startswith(".."):
        mend = _("put the picture into the folder of the lesson")
        return _problem(source, address, _("a picture lies beside its lesson"), mend)
    if ending not in TYPES:
        mend = _("save it as PNG or JPEG")
        return _problem(source, address, _("'.{ending}' is no picture").format(ending=ending[:10]), mend)
    file = folder / module / path
    try:
        inside = file.resolve().is_relative_to(folder.resolve())
        data = file.read_bytes() if inside and file.is_file() else b""
    except (OSError, ValueError, RuntimeError):
        data = b""
    if not data:
        mend = _("check its name, capitals too")
        return _problem(source, address, _("there is no picture '{path}'").format(path=path[:80]), mend)
    if len(data) > LARGEST:
        mend = _("make it smaller")
        return _problem(source, address, _("this picture is over {n} MB").format(n=LARGEST // 1_000_000), mend)
    if not data.startswith(_BEGINNINGS[TYPES[ending]]):
        mend = _("save it again in that format")
        return _problem(source, address, _("this file is no {ending} picture").format(ending=ending), mend)
    return Image(path, TYPES[ending], base64.b64encode(data).decode())
