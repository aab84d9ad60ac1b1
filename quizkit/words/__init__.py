"""The one catalogue through which every text that people read passes.

English is the language of the source; a language is added by a compiled catalogue at
``quizkit/words/<language>/LC_MESSAGES/quizkit.mo``. A text without a translation stays as written.
"""

import gettext as _gettext
from functools import lru_cache
from pathlib import Path

DOMAIN = "quizkit"
FOLDER = Path(__file__).parent


@lru_cache(maxsize=8)
def catalogue(language: str = "en") -> _gettext.NullTranslations:
    """The texts of a language; the source's own English where there is no catalogue for it."""
    return _gettext.translation(DOMAIN, FOLDER, [language], fallback=True)


def _(text: str, language: str = "en") -> str:
    """One text in a language, or the text itself where it has no translation."""
    return catalogue(language).gettext(text)


def ngettext(one: str, many: str, count: int, language: str = "en") -> str:
    """The form of a text that goes with a count."""
    return catalogue(language).ngettext(one, many, count)
