"""The templates and the stylesheet: how a page looks, with nothing worked out in it."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from quizkit.pages.dates import day_here, moment_here, short
from quizkit.pages.drawn import NUMBERS, drawn, in_words, numbers, picture, spoken
from quizkit.pages.written import written
from quizkit.words import catalogue, ngettext

STATIC = Path(__file__).parent / "static"
"""The folder of the stylesheet and the few scripts, served as they are."""
_HYPHEN = re.compile(r"(?<!\w)-(?=[$.\d])")


def stamp(word: str) -> str:
    """The class of a stamp for a standing's word: 'check passed' becomes 'check-passed'."""
    return word.replace(" ", "-")


def sentence(words: str) -> str:
    """Words with a capital in front and a stop behind."""
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "?", "!")) else ".")


def capital(words: str) -> str:
    """Words with a capital in front, as the first of a line has it."""
    return words[:1].upper() + words[1:]


def minus(words: str) -> str:
    """Numbers in words with a true minus: the hyphen of a keyboard is too short before a figure."""
    return _HYPHEN.sub("−", words)


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
    made.filters.update(stamp=stamp, sentence=sentence, capital=capital, minus=minus)
    made.filters.update(drawn=drawn, in_words=in_words, spoken=spoken)
    made.filters.update(day=day_here, short=short, moment=moment_here)
    made.globals.update(counted=ngettext, picture=picture, written=written)
    return made


def page(template: str, language: str = "en", /, **values: object) -> str:
    """One page as HTML from a template of this room."""
    return environment(language).get_template(template).render({NUMBERS: numbers()} | values)


def safe(html: str) -> Markup:
    """HTML that a room of ours rendered and escaped itself (a text's tree, a picture), let through as it is."""
    return Markup(html)
