"""The templates and the stylesheet: how a page looks, with nothing worked out in it."""

from __future__ import annotations

from datetime import date, datetime
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from quizkit.pages.drawn import NUMBERS, drawn, numbers, picture, spoken
from quizkit.pages.written import written
from quizkit.words import catalogue, ngettext

STATIC = Path(__file__).parent / "static"
"""The folder of the stylesheet and the few scripts, served as they are."""


def stamp(word: str) -> str:
    """The class of a stamp for a standing's word: 'check passed' becomes 'check-passed'."""
    return word.replace(" ", "-")


def day(value: date | datetime | None) -> str:
    """A date as the shop's paper has it: '14 Jan 2027'; nothing for no date."""
    return f"{value.day} {value:%b %Y}" if value else ""


def sentence(words: str) -> str:
    """Words with a capital in front and a stop behind."""
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "?", "!")) else ".")


def capital(words: str) -> str:
    """Words with a capital in front, as the first of a line has it."""
    return words[:1].upper() + words[1:]


@lru_cache(maxsize=8)
def environment(language: str = "en") -> Environment:
    """The one Jinja2 environment of a language: every value escaped, every unknown name an error."""
    made = Environment(
        loader=PackageLoader("quizkit.pages"),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.install_gettext_translations(catalogue(language))  # type: ignore[attr-defined]
    made.filters.update(stamp=stamp, day=day, sentence=sentence, capital=capital, drawn=drawn, spoken=spoken)
    made.globals.update(counted=ngettext, picture=picture, written=written)
    return made


def page(template: str, language: str = "en", /, **values: object) -> str:
    """One page as HTML from a template of this room."""
    return environment(language).get_template(template).render({NUMBERS: numbers()} | values)


def safe(html: str) -> Markup:
    """HTML that a room of ours rendered and escaped itself (a text's tree, a picture), let through as it is."""
    return Markup(html)
