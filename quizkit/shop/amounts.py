"""Amounts of a material as a person types them, in cartridges of the shelf; and back into words."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from quizkit.formula import Row
from quizkit.pack.model import Pack
from quizkit.pack.shelf import stocked
from quizkit.pack.shown import amount
from quizkit.pack.shown import day as day_words
from quizkit.scoring.dates import read_date
from quizkit.scoring.numerals import NotRead
from quizkit.scoring.reading import Reading, Unread, read
from quizkit.scoring.spelling import tidy
from quizkit.shop.handle import Shop
from quizkit.shop.label import style_of
from quizkit.shop.packs import pack_on
from quizkit.shop.refusal import Refusal, Unknown
from quizkit.trade import SUMS
from quizkit.units import PLAIN, Unit, unit
from quizkit.words import _, ngettext

_WHOLE = re.compile(r"(?P<number>.*?)\s*(?:cartridges?|cart\.?|tubes?)", re.I | re.S)
_READINGS = re.compile(r"(?P<start>.+?)\s+to\s+(?P<end>.+)", re.I | re.S)
DIGITS = 4
"""Significant digits of an amount that does not end, as it is told."""
CENT = Fraction(1, 100)


@dataclass(frozen=True, slots=True)
class Amount:
    """An exact value (cartridges, or whole units of the shop's money, or a share) and how it is told."""

    value: Fraction
    text: str

    def __str__(self) -> str:
        return self.text


def material_on(shop: Shop, name: str, day: dt.date) -> Row:
    """The shelf row of a material as it was in force on a day. Raises Unknown, naming what is on the shelf."""
    sought = " ".join(name.split()).casefold()
    rows = [row for row in pack_on(shop, day).shelf.rows if stocked(row, day)]
    for row in rows:
        if row.name.casefold() == sought:
            return row
    if not sought:
        raise Refusal(_("No material is picked"), _("pick it from the shelf"))
    known = ", ".join(row.name for row in rows) or _("nothing")
    raise Unknown(
        _("There is no material '{name}' on the shelf on {day}").format(name=name[:40], day=day_words(day)),
        _("the shelf has: {known}").format(known=known),
    )


def read_amount(pack: Pack, row: Row, text: str, *, counted: bool) -> Fraction:
    """An amount of a material in cartridges: "3", "1/2 cartridge", "120 mL", or two readings, "30 to 115 mL".

    A bare number counts cartridges where they are `counted`, else it is in mL, as on a cartridge's scale. Refuses what
    it cannot read, what is below nothing, and a volume of a material for which the shelf names no cartridge.
    """
    whole = _WHOLE.fullmatch(text.strip())
    if whole is not None:
        return _not_negative(_number(pack, row, whole["number"], PLAIN).number, text)
    readings = _READINGS.fullmatch(text.strip())
    if readings is not None:
        return _between(pack, row, readings["start"], readings["end"])
    found = _number(pack, row, text, unit("mL"))
    return _not_negative(found.number if found.bare and counted else found.value / _cartridge(row), text)


def _between(pack: Pack, row: Row, start: str, end: str) -> Fraction:
    """What went out between two readings of one cartridge's scale."""
    last = _number(pack, row, end, unit("mL"))
    first = _number(pack, row, start, last.unit)
    share = SUMS["used_share"]
    values = (first.value, last.value, _cartridge(row))
    wrong = next((_(one.words) for one in share.senses if one.when(*values)), None)
    if wrong is not None:
        raise Refusal(_("{name}: '{start} to {end}' cannot be").format(name=row.name, start=start, end=end), wrong)
    return Fraction(share.function(*values))


def _number(pack: Pack, row: Row, text: str, asked: Unit) -> Reading:
    found = read(text, asked, style_of(pack))
    if isinstance(found, Unread):
        raise Refusal(
            _("{name}: the amount '{text}' is not understood: {why}").format(
                name=row.name, text=text.strip()[:40], why=found.why
            ),
            _("type it like 120 mL, 1/2 cartridge, or the two readings: 30 to 115 mL"),
        )
    return found


def _not_negative(value: Fraction, text: str) -> Fraction:
    if value < 0:
        raise Refusal(_("'{text}' is less than nothing").format(text=text.strip()[:40]), _("type it without the minus"))
    return value


def _cartridge(row: Row) -> Fraction:
    full = row.field("cartridge")
    if not isinstance(full, Fraction) or full <= 0:
        raise Refusal(
            _("The shelf does not say what a cartridge of {name} holds").format(name=row.name),
            _("type the amount in cartridges"),
        )
    return full


def cartridges(pack: Pack, value: Fraction) -> Amount:
    """A count of cartridges in words."""
    return Amount(value, amount(value, PLAIN, style_of(pack), digits=None if _ends(value) else DIGITS))


def cartridge_words(pack: Pack, row: Row | None, value: Fraction) -> str:
    """An amount as a ticket has it: in millilitres where the shelf names the cartridge, else in cartridges."""
    full = row.field("cartridge") if row else None
    if isinstance(full, Fraction):
        volume = value * full
        ends = _ends(unit("mL").from_base(volume))
        return amount(volume, unit("mL"), style_of(pack), digits=None if ends else DIGITS)
    count = cartridges(pack, value).text
    return ngettext("{n} cartridge", "{n} cartridges", 1 if value == 1 else 2).format(n=count)


def _ends(value: Fraction) -> bool:
    """Whether a value has a decimal form of a few digits."""
    return (value * 1000).denominator == 1


def money(pack: Pack, value: Fraction) -> Amount:
    """An amount of money to the cent, in the shop's currency."""
    return Amount(value, amount(value, unit("$"), style_of(pack), step=CENT))


def read_money(pack: Pack, text: str) -> Fraction:
    """An amount of the shop's money as typed, exact. Refuses what it cannot read, and less than nothing."""
    found = read(text, unit("$"), style_of(pack))
    if isinstance(found, Unread):
        raise Refusal(
            _("The charge '{text}' is not understood: {why}").format(text=text.strip()[:40], why=found.why),
            _("type it like {money}").format(money=money(pack, Fraction(2737, 100))),
        )
    return _not_negative(found.value, text)


def price_of(row: Row) -> Fraction | None:
    """What a cartridge costs the shop; None where the shelf does not say."""
    price = row.field("price")
    return price if isinstance(price, Fraction) else None


def read_day(pack: Pack, text: str) -> dt.date:
    """A day as typed in a list: 2026-11-25, or as the shop writes dates. Refuses what it cannot read."""
    try:
        return read_date(tidy(text), style_of(pack).dates)
    except NotRead as error:
        raise Refusal(
            _("The day '{text}' is not understood: {why}").format(text=text[:40], why=error.why),
            _("write it like 2026-11-25"),
        ) from None


def field(row: Mapping[str, str], name: str) -> str:
    """A cell of a list, without the space around it; blank where the list has no such column."""
    return row.get(name, "").strip()
