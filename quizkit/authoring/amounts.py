"""Single values that an author types: amounts with units, steps, ratios, dates."""

from __future__ import annotations

import datetime
import re
from fractions import Fraction

from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.formula import RatioValue
from quizkit.units import (
    DIFFERENCE,
    MONEY,
    NUMBER,
    PLAIN,
    TEMPERATURE,
    Kind,
    Quantity,
    Unit,
    UnitError,
    quantity,
    unit,
)
from quizkit.words import _

_RATIO = re.compile(r"(\d{1,6}(?:\.\d{1,6})?)[ \t]*:[ \t]*(\d{1,6}(?:\.\d{1,6})?)(?:\s+by\s+(\S+))?")
_OTHER_MONEY = re.compile("[€£¥₹]")
_DATE = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)")


def read_unit(notes: Notes, stretch: Stretch) -> Unit | None:
    """The unit that a text names; None, and told, where there is none."""
    text = stretch.text.strip()
    try:
        return unit({"$": "$", "dollars": "$"}.get(text, text))
    except UnitError as error:
        notes.tell("A06", stretch, error.what, error.mend)
        return None


def read_amount(notes: Notes, stretch: Stretch) -> Quantity | None:
    """An amount with its unit; None, and told, where there is none."""
    try:
        return quantity(" ".join(stretch.text.split()))
    except UnitError as error:
        money = (
            _("money is in the shop's currency, and its sign here is $") if _OTHER_MONEY.search(stretch.text) else ""
        )
        notes.tell("A06", stretch, error.what, money or error.mend)
        return None


def amount_of(notes: Notes, stretch: Stretch, kind: Kind, home: Unit) -> Fraction | None:
    """An amount of a kind, in the coherent base; a bare number is in the unit `home`."""
    found = read_amount(notes, stretch)
    if found is None:
        return None
    if found.unit == PLAIN and kind != NUMBER:
        return home.to_base(found.value)
    if found.unit.kind == kind:
        return found.value
    tell_kind(notes, stretch, found.unit.kind, kind)
    return None


def tell_kind(notes: Notes, stretch: Stretch, got: Kind, wanted: Kind) -> None:
    """Tell that a value is of another kind than is wanted."""
    what = _("this is {got}, here stands {wanted}").format(got=str(got), wanted=str(wanted))
    mend = _("write '10 °C apart' for a difference") if {got, wanted} == {TEMPERATURE, DIFFERENCE} else ""
    notes.tell("Q21", stretch, what, mend or _("use a unit of the same kind"))


def read_step(notes: Notes, stretch: Stretch, home: Unit) -> tuple[Fraction, str] | None:
    """A step in the unit `home`, over 0, and how it was written: "5 mL", "1/2 turn", "the cent"; None, and told."""
    text = " ".join(stretch.text.split())
    if text in ("the cent", "cent", "a cent") and home.kind == MONEY:
        return Fraction(1, 100) / home.factor, "decimal"
    found = read_amount(notes, stretch)
    if found is None:
        return None
    step = found.value - found.unit.offset
    if found.unit == PLAIN and home.kind != NUMBER:
        size = step
    elif found.unit.kind == home.kind or {found.unit.kind, home.kind} == {TEMPERATURE, DIFFERENCE}:
        size = step / home.factor
    else:
        tell_kind(notes, stretch, found.unit.kind, home.kind)
        return None
    if size <= 0:
        notes.tell("A06", stretch, _("a step is over 0"), _("write it like '5 mL'"))
        return None
    return size, found.style


def looks_like_ratio(text: str) -> bool:
    """Whether a text begins like a ratio."""
    return bool(_RATIO.match(text.strip()))


def read_ratio(notes: Notes, stretch: Stretch, basis: str = "") -> RatioValue | None:
    """A ratio with its basis, or with the one of its neighbours; None, and told, where there is none."""
    found = _RATIO.fullmatch(stretch.text.strip())
    if found is None:
        notes.tell("G04", stretch, _("this is no ratio"), _("write it like '10:1 by volume'"))
        return None
    a, b = Fraction(found[1]), Fraction(found[2])
    basis = found[3] or basis
    if basis not in ("volume", "weight"):
        notes.tell(
            "G04",
            stretch,
            _("this ratio does not say by volume or by weight"),
            _("write '{ratio} by volume' or '{ratio} by weight'").format(ratio=f"{found[1]}:{found[2]}"),
        )
        return None
    if 0 in (a, b):
        notes.tell("G04", stretch, _("a side of this ratio is 0"), _("both sides are over 0"))
        return None
    return RatioValue(a, b, basis)


def looks_like_date(text: str) -> bool:
    """Whether a text is written like a date."""
    return bool(_DATE.fullmatch(text.strip()))


def read_date(notes: Notes, stretch: Stretch) -> datetime.date | None:
    """A date, year first; None, and told, where there is no such day."""
    found = _DATE.fullmatch(stretch.text.strip())
    try:
        if found:
            return datetime.date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        pass
    notes.tell("G05", stretch, _("there is no such day"), _("write a date like 2026-05-31"))
    return None
