"""The number that a typed text begins with, in every form that people write one."""

import re
from dataclasses import dataclass
from fractions import Fraction

from quizkit.words import _

LARGEST_EXPONENT = 30


class NotRead(ValueError):
    """What was not understood, in words for the person who typed it."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


@dataclass(frozen=True, slots=True)
class Numeral:
    """A typed number: its exact value, the size of one in its last figure, and the text behind it."""

    value: Fraction
    step: Fraction
    rest: str


_NUMERAL = re.compile(
    r"""(?P<sign>[-+–]\ ?)?(?:
      (?:(?P<whole>[0-9]+)(?:\ |-))?(?P<top>[0-9]+)\ ?/\ ?(?P<under>[0-9]+)
     |(?P<figures>[0-9.,]*[0-9][.,]?)(?:(?:[eE]|\ ?[x×*]\ ?10\ ?\^\ ?)(?P<exponent>[-+]?[0-9]+))?
    )""",
    re.VERBOSE,
)


def _figures(mark: str, group: str) -> re.Pattern[str]:
    mark, group = re.escape(mark), re.escape(group)
    return re.compile(
        rf"(?P<whole>[0-9]+|[1-9][0-9]{{0,2}}(?:{group}[0-9]{{3}})+)(?:{mark}(?P<part>[0-9]*))?|{mark}(?P<alone>[0-9]+)"
    )


_FIGURES = {".": _figures(".", ","), ",": _figures(",", ".")}
_GROUPS = {".": ",", ",": "."}
_ONE = Fraction(1)
_STEPS = [Fraction(1, 10**places) for places in range(10)]


def numeral(text: str, mark: str = ".") -> Numeral:
    """Read the number at the beginning of a tidy text; `mark` is the decimal mark, the other sign groups thousands.

    Forms: 2.4, .5, 1/2, 2 1/2, 2-1/2, 1.2e3, 1.2 x 10^3, 1,250.00, with a sign. Raises NotRead.
    """
    found = _NUMERAL.match(text)
    if found is None:
        raise NotRead(_("there is no number at the beginning; type the number first, like 24 or 1/2"))
    sign, whole, top, under, figures, exponent = found.groups()
    rest = text[found.end() :].lstrip()
    if figures is None:
        value, step = _fraction(whole, top, under)
    else:
        value, step = _decimal(figures, mark)
        if exponent is not None:
            scale = _scale(exponent)
            value, step = value * scale, step * scale
    return Numeral(-value if sign and sign[0] in "-–" else value, step, rest)


def _fraction(whole: str | None, top: str, under: str) -> tuple[Fraction, Fraction]:
    lower = int(under)
    if lower == 0:
        raise NotRead(_("nothing can be divided by 0"))
    part = Fraction(int(top), lower)
    if whole is None:
        return part, Fraction(1, lower)
    if part >= 1:
        raise NotRead(_("two numbers were typed; type one"))
    return int(whole) + part, Fraction(1, lower)


def _decimal(figures: str, mark: str) -> tuple[Fraction, Fraction]:
    if figures.isdecimal():
        return Fraction(int(figures)), _ONE
    found = _FIGURES[mark].fullmatch(figures)
    if found is None:
        group = _GROUPS[mark]
        why = _("'{figures}' can be read in two ways; write '{mark}' before the decimals, and no '{group}'")
        raise NotRead(why.format(figures=figures[:20], mark=mark, group=group))
    whole, part, alone = found.groups()
    part = alone or part or ""
    whole = (whole or "").replace(_GROUPS[mark], "")
    places = len(part)
    step = _STEPS[places] if places < 10 else Fraction(1, 10**places)
    return Fraction(int(whole + part), 10**places), step


def _scale(exponent: str) -> Fraction:
    power = int(exponent) if len(exponent) <= 4 else LARGEST_EXPONENT + 1
    if abs(power) > LARGEST_EXPONENT:
        raise NotRead(_("the power of ten is too large"))
    return Fraction(10) ** power
