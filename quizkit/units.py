"""Kinds of value, the declared units, and a quantity read from and shown to a person.

Units are read by a small grammar over a closed list, never by a general library: hostile text is refused before
anything is computed. Every factor is an exact fraction of the coherent base (m, kg, s, K, mol, and our own: money,
turns of the flow screw, parts per million in air, sound level). `registry()` builds a pint registry from the same list;
tests hold the two to each other and to NIST.
"""

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from quizkit.arith import nearest
from quizkit.words import _

if TYPE_CHECKING:
    import pint

Exponent = int | Fraction
LONGEST_TEXT = 200
LARGEST_EXPONENT = 30
LARGEST_UNIT_POWER = 6
MOST_ATOMS = 6


class UnitError(ValueError):
    """A text that is no unit or quantity of ours: `what` is wrong, how to `mend` it, the `nearest` known unit or ""."""

    def __init__(self, what: str, mend: str = "", nearest: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.mend = mend
        self.nearest = nearest


class KindError(TypeError):
    """Kinds of value that do not go together: `what` says which, `mend` the way out, `argument` (from 0) which one."""

    def __init__(self, what: str, mend: str = "", argument: int | None = None) -> None:
        super().__init__(what)
        self.what = what
        self.mend = mend
        self.argument = argument


@dataclass(frozen=True, slots=True)
class Kind:
    """What sort of value something is: powers of base dimensions, or something special that is no plain magnitude."""

    dims: tuple[tuple[str, Exponent], ...] = ()
    """(base, power) sorted by base, no power 0; bases: kelvin length mass mol money ppm sound time turn."""
    special: str = ""
    """"", or "point" (a temperature point), "date", "ratio by volume", "ratio by weight", "text", "truth", "row"."""

    def times(self, other: "Kind") -> "Kind":
        """The kind of a product; KindError for a point, a date, a ratio, a text."""
        return self._combined(other, 1)

    def over(self, other: "Kind") -> "Kind":
        """The kind of a quotient; KindError for a point, a date, a ratio, a text."""
        return self._combined(other, -1)

    def power(self, exponent: Exponent) -> "Kind":
        """The kind of a power (1/2 for a root); KindError for a point, a date, a ratio, a text."""
        self._must_be_plain()
        return _kind_of((base, power * exponent) for base, power in self.dims)

    def _combined(self, other: "Kind", sign: int) -> "Kind":
        self._must_be_plain()
        other._must_be_plain()
        return _kind_of([*self.dims, *((base, sign * power) for base, power in other.dims)])

    def _must_be_plain(self) -> None:
        if self.special:
            raise KindError(_("{kind} takes no multiplying or dividing").format(kind=str(self)))

    def __str__(self) -> str:
        if self in _NAMES:
            return _(_NAMES[self])
        tops = [_powered(base, power) for base, power in self.dims if power > 0]
        unders = [_powered(base, -power) for base, power in self.dims if power < 0]
        over = " / " + "·".join(unders) if unders else ""
        return _("a value in {bases}").format(bases=("·".join(tops) or "1") + over)


def _powered(base: str, power: Exponent) -> str:
    return base if power == 1 else f"{base}^{power}"


def _kind_of(pairs: Iterable[tuple[str, Exponent]]) -> Kind:
    total: dict[str, Fraction] = {}
    for base, power in pairs:
        total[base] = total.get(base, Fraction(0)) + power
    whole = ((base, int(p) if p.denominator == 1 else p) for base, p in sorted(total.items()) if p)
    return Kind(tuple(whole))


def _dims(**powers: int) -> Kind:
    return _kind_of(powers.items())


NUMBER = Kind()
LENGTH, MASS, TIME, MOL = _dims(length=1), _dims(mass=1), _dims(time=1), _dims(mol=1)
AREA, VOLUME = _dims(length=2), _dims(length=3)
PRESSURE, FORCE = _dims(mass=1, length=-1, time=-2), _dims(mass=1, length=1, time=-2)
VISCOSITY = PRESSURE.times(TIME)
DIFFERENCE, TEMPERATURE = _dims(kelvin=1), Kind((("kelvin", 1),), "point")
MONEY, TURN, PPM, SOUND = _dims(money=1), _dims(turn=1), _dims(ppm=1), _dims(sound=1)
DENSITY = CONCENTRATION = MASS.over(VOLUME)
FLOW, SPEED, MOLAR_MASS = VOLUME.over(TIME), LENGTH.over(TIME), MASS.over(MOL)
DATE, TEXT, TRUTH, ROW = (Kind((), word) for word in ("date", "text", "truth", "row"))
RATIO_BY_VOLUME, RATIO_BY_WEIGHT = Kind((), "ratio by volume"), Kind((), "ratio by weight")

_NAMES: dict[Kind, str] = {
    NUMBER: "a plain number",
    LENGTH: "a length",
    AREA: "an area",
    VOLUME: "a volume",
    MASS: "a mass",
    TIME: "a time",
    PRESSURE: "a pressure",
    FORCE: "a force",
    VISCOSITY: "a viscosity",
    TEMPERATURE: "a temperature",
    DIFFERENCE: "a difference of temperatures",
    MONEY: "an amount of money",
    TURN: "turns of the screw",
    PPM: "parts per million in air",
    SOUND: "a sound level",
    DENSITY: "a mass per volume",
    FLOW: "a flow",
    SPEED: "a speed",
    MOLAR_MASS: "a molar mass",
    DATE: "a date",
    TEXT: "a text",
    TRUTH: "a comparison",
    ROW: "a row of the shelf",
    RATIO_BY_VOLUME: "a ratio by volume",
    RATIO_BY_WEIGHT: "a ratio by weight",
}

_WORDS: dict[str, Kind] = {
    "number": NUMBER,
    "share": NUMBER,
    "months": NUMBER,
    "length": LENGTH,
    "area": AREA,
    "volume": VOLUME,
    "mass": MASS,
    "time": TIME,
    "pressure": PRESSURE,
    "force": FORCE,
    "viscosity": VISCOSITY,
    "temperature": TEMPERATURE,
    "difference": DIFFERENCE,
    "money": MONEY,
    "turns": TURN,
    "ppm": PPM,
    "sound": SOUND,
    "density": DENSITY,
    "concentration": CONCENTRATION,
    "flow": FLOW,
    "speed": SPEED,
    "molar mass": MOLAR_MASS,
    "date": DATE,
    "money per volume": MONEY.over(VOLUME),
    "money per length": MONEY.over(LENGTH),
    "ratio by volume": RATIO_BY_VOLUME,
    "ratio by weight": RATIO_BY_WEIGHT,
}


def kind(word: str) -> Kind:
    """The kind that a word of a declaration means ("volume", "money per length"); KeyError for an unknown word."""
    return _WORDS[word]


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one kind: base value = value × factor + offset, exactly."""

    symbol: str
    kind: Kind
    factor: Fraction
    offset: Fraction = Fraction(0)

    def to_base(self, value: Fraction) -> Fraction:
        """A number in this unit, in the coherent base."""
        return value * self.factor + self.offset

    def from_base(self, value: Fraction) -> Fraction:
        """A value of the coherent base, in this unit."""
        return (value - self.offset) / self.factor


_IN, _LB, _KELVIN = Fraction("0.0254"), Fraction("0.45359237"), Fraction("273.15")
_GAL, _LBF = 231 * _IN**3, _LB * Fraction("9.80665")

# symbol | kind | factor to the base | what a person may type for it besides
_DECLARED: tuple[tuple[str, Kind, Fraction, str], ...] = (
    ("m", LENGTH, Fraction(1), "meter metre"),
    ("cm", LENGTH, Fraction(1, 100), "centimeter centimetre"),
    ("mm", LENGTH, Fraction(1, 1000), "millimeter millimetre"),
    ("µm", LENGTH, Fraction(1, 10**6), "um μm micron micrometer micrometre"),
    ("in", LENGTH, _IN, 'inch inches " ″'),
    ("ft", LENGTH, 12 * _IN, "foot feet ' ′"),
    ("yd", LENGTH, 36 * _IN, "yard"),
    ("mil", LENGTH, _IN / 1000, "mils"),
    ("m²", AREA, Fraction(1), "sq_m square_meter square_metre"),
    ("cm²", AREA, Fraction(1, 10**4), "sq_cm"),
    ("mm²", AREA, Fraction(1, 10**6), "sq_mm"),
    ("in²", AREA, _IN**2, "sq_in square_inch square_inches"),
    ("ft²", AREA, (12 * _IN) ** 2, "sq_ft square_foot square_feet"),
    ("m³", VOLUME, Fraction(1), "cubic_meter cubic_metre"),
    ("L", VOLUME, Fraction(1, 1000), "l liter litre"),
    ("cL", VOLUME, Fraction(1, 10**5), "cl centiliter centilitre"),
    ("mL", VOLUME, Fraction(1, 10**6), "ml cc ccm milliliter millilitre"),
    ("cm³", VOLUME, Fraction(1, 10**6), "cubic_cm"),
    ("mm³", VOLUME, Fraction(1, 10**9), "cubic_mm"),
    ("in³", VOLUME, _IN**3, "cu_in cubic_inch cubic_inches"),
    ("ft³", VOLUME, (12 * _IN) ** 3, "cu_ft cubic_foot cubic_feet"),
    ("fl oz", VOLUME, _GAL / 128, "fl_oz floz fluid_ounce"),
    ("US gal", VOLUME, _GAL, "gal us_gal gallon us_gallon"),
    ("kg", MASS, Fraction(1), "kilogram kilo"),
    ("g", MASS, Fraction(1, 1000), "gram gm"),
    ("mg", MASS, Fraction(1, 10**6), "milligram"),
    ("µg", MASS, Fraction(1, 10**9), "ug μg microgram"),
    ("oz", MASS, _LB / 16, "ounce"),
    ("lb", MASS, _LB, "lbs pound"),
    ("s", TIME, Fraction(1), "sec second"),
    ("min", TIME, Fraction(60), "mins minute"),
    ("h", TIME, Fraction(3600), "hr hrs hour"),
    ("day", TIME, Fraction(86400), "d days"),
    ("week", TIME, Fraction(7 * 86400), "weeks"),
    ("Pa", PRESSURE, Fraction(1), "pascal"),
    ("kPa", PRESSURE, Fraction(1000), "kpa kilopascal"),
    ("MPa", PRESSURE, Fraction(10**6), "megapascal"),
    ("bar", PRESSURE, Fraction(10**5), "bars"),
    ("psi", PRESSURE, _LBF / _IN**2, "psig"),
    ("N", FORCE, Fraction(1), "newton"),
    ("kN", FORCE, Fraction(1000), "kilonewton"),
    ("lbf", FORCE, _LBF, "pound_force"),
    ("cP", VISCOSITY, Fraction(1, 1000), "cps centipoise"),
    ("mol", MOL, Fraction(1), "mole"),
    ("K", TEMPERATURE, Fraction(1), "kelvin"),
    ("°C", TEMPERATURE, Fraction(1), "degc celsius ℃ deg_c c"),
    ("°F", TEMPERATURE, Fraction(5, 9), "degf fahrenheit ℉ deg_f f"),
    ("turn", TURN, Fraction(1), "turns rev"),
    ("ppm", PPM, Fraction(1), ""),
    ("dBA", SOUND, Fraction(1), "dba db(a)"),
    ("%", NUMBER, Fraction(1, 100), "percent pct"),
    ("$", MONEY, Fraction(1), "usd dollar"),
    ("¢", MONEY, Fraction(1, 100), "cent"),
)
_OFFSETS = {"°C": _KELVIN, "°F": Fraction("459.67") * Fraction(5, 9)}
_PLURALS = {"turn": "turns", "day": "days", "week": "weeks"}
_APART = "apart"
PLAIN = Unit("", NUMBER, Fraction(1))
UNITS: tuple[Unit, ...] = tuple(Unit(s, k, f, _OFFSETS.get(s, Fraction(0))) for s, k, f, _names in _DECLARED)
"""Every unit that has a name of its own."""


def _spelled() -> tuple[dict[str, Unit], dict[str, Unit]]:
    exact: dict[str, Unit] = {}
    loose: dict[str, Unit] = {}
    clashes: set[str] = set()
    for one, (symbol, _kind, _factor, names) in zip(UNITS, _DECLARED, strict=True):
        spellings = {symbol, *names.split()}
        spellings |= {name + "s" for name in spellings if len(name) > 3 and name.isalpha() and not name.endswith("s")}
        for name in {symbol, *(name.replace("_", " ") for name in spellings)}:
            exact[name] = one
            folded = name.casefold()
            if loose.setdefault(folded, one) is not one:
                clashes.add(folded)
    return exact, {name: one for name, one in loose.items() if name not in clashes}


_EXACT, _LOOSE = _spelled()
_POWERS = {"²": 2, "³": 3}
_ATOM = re.compile(
    r"(?P<name>.*?)(?:\s*\^\s*(?P<caret>-?[0-9])|(?P<raised>[²³])|(?<=[a-zA-Z])(?P<plain>[23]))?\Z", re.S
)


def _known(name: str) -> Unit | None:
    return _EXACT.get(name) or _LOOSE.get(name.casefold())


def _atom(text: str) -> tuple[str, Unit]:
    """One piece between the joining signs: its symbol and its unit, power taken in."""
    whole = _known(text)
    if whole is not None:
        return whole.symbol, whole
    found = _ATOM.match(text)
    name = found["name"] if found else text
    base = _known(name)
    if base is None or found is None:
        raise _unknown(text)
    power = int(found["caret"] or found["plain"] or _POWERS.get(found["raised"] or "", 1))
    if not 1 <= abs(power) <= LARGEST_UNIT_POWER:
        raise UnitError(_("the power {power} is out of range").format(power=power), _("use 1 to 6"))
    mark = {1: "", 2: "²", 3: "³"}.get(power, f"^{power}")
    flat = _flat(base)
    return base.symbol + mark, Unit(base.symbol + mark, flat.kind.power(power), flat.factor**power)


def _unknown(text: str) -> UnitError:
    close = difflib.get_close_matches(text.casefold(), _LOOSE, n=1, cutoff=0.5) if len(text) <= 20 else []
    near = _LOOSE[close[0]].symbol if close else ""
    shown = text if len(text) <= 20 else text[:20] + "…"
    mend = _("did you mean '{unit}'?").format(unit=near) if near else _("write a unit such as mL, mm, psi, g or min")
    return UnitError(_("'{text}' is no unit known here").format(text=shown), mend, near)


def _flat(one: Unit) -> Unit:
    """The unit as a part of a compound, where a temperature is a difference."""
    return Unit(one.symbol, DIFFERENCE, one.factor) if one.kind is TEMPERATURE else one


@lru_cache(maxsize=2048)
def unit(text: str) -> Unit:
    """The unit that a text names: "mL", "mg/m3", "Pa·s", "fl oz", "°C apart"; "" is the unit of plain numbers.

    Atoms of the declared list, joined by / * · or 'per' and read from left to right, with powers ² ³ ^2.
    Raises UnitError, with the nearest known unit.
    """
    tidy = " ".join(text.split())
    if not tidy:
        return PLAIN
    if len(tidy) > LONGEST_TEXT:
        raise UnitError(_("this unit is too long"), _("at most {n} characters").format(n=LONGEST_TEXT))
    if tidy.casefold().endswith(" " + _APART):
        return _apart(tidy[: -len(_APART)].rstrip())
    pieces = re.split(r"\s*([/*·×]|\bper\b)\s*", tidy)
    if len(pieces) > 2 * MOST_ATOMS:
        raise UnitError(_("this unit has too many parts"), _("at most {n} parts").format(n=MOST_ATOMS))
    if len(pieces) == 1:
        return _atom(tidy)[1]
    return _compound(pieces)


def _apart(text: str) -> Unit:
    base = _known(text)
    if base is None or base.kind is not TEMPERATURE:
        raise UnitError(_("'apart' goes with a temperature"), _("write '10 °C apart'"))
    return Unit(f"{base.symbol} {_APART}", DIFFERENCE, base.factor)


def _compound(pieces: list[str]) -> Unit:
    first, rest = pieces[0], pieces[1:]
    symbol, one = ("1", PLAIN) if first in ("", "1") else _atom(first)
    kind_so_far, factor = _flat(one).kind, one.factor
    for sign, piece in zip(rest[::2], rest[1::2], strict=True):
        name, part = _atom(piece)
        part = _flat(part)
        if sign in ("/", "per"):
            symbol, kind_so_far, factor = f"{symbol}/{name}", kind_so_far.over(part.kind), factor / part.factor
        else:
            symbol, kind_so_far, factor = f"{symbol}·{name}", kind_so_far.times(part.kind), factor * part.factor
    return Unit(symbol, kind_so_far, factor)


@dataclass(frozen=True, slots=True)
class Quantity:
    """An author's number with its unit: the exact value in the coherent base, and how it was written."""

    value: Fraction
    unit: Unit
    text: str
    """As typed, spaces tidied."""
    style: str
    """"decimal" or "fraction": how it was written, so that values between it and another can be shown alike."""


_VULGAR = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBER = re.compile(
    r"(?:(?:(?P<whole>\d+) )?(?P<top>\d+)/(?P<under>\d+)"
    r"|(?P<grouped>\d{1,3}(?:,\d{3})+(?:\.\d+)?)"
    r"|(?P<decimal>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE](?P<exponent>[+-]?\d+))?))",
    re.ASCII,
)


def number(text: str) -> tuple[Fraction, str, str]:
    """The number that a text begins with: its exact value, its style, and what is left of the text.

    Forms: 2.4, .5, 1/2, 2 1/2, 2½, 1.2e3, 1,250.00, with a sign (hyphen or true minus). Raises UnitError.
    """
    rest = text.replace("−", "-").strip()
    sign = -1 if rest.startswith("-") else 1
    rest = re.sub(r"\A[+-] ?", "", rest)
    for mark, plain in _VULGAR.items():
        rest = re.sub(rf"(\d) ?{mark}", rf"\1 {plain}", rest, count=1) if mark in rest else rest
        rest = rest.replace(mark, plain, 1)
    found = _NUMBER.match(rest)
    if found is None or found.end() > 60 or abs(int(found["exponent"] or 0)) > LARGEST_EXPONENT:
        raise UnitError(
            _("'{text}' does not begin with a number").format(text=text[:20]), _("write '60 mL' or '1/2 in'")
        )
    left = rest[found.end() :].strip()
    if found["top"] is None:
        return sign * Fraction((found["grouped"] or found["decimal"]).replace(",", "")), "decimal", left
    if int(found["under"]) == 0:
        raise UnitError(_("a fraction over zero is no number"), _("write the lower number above 0"))
    part = Fraction(int(found["top"]), int(found["under"]))
    return sign * (int(found["whole"] or 0) + part), "fraction", left


def quantity(text: str) -> Quantity:
    """An author's literal: "60 mL", "1/2 in", "2 1/2 turns", "25 %", "$14.50", "-5 %", "20 °C", "10 °C apart".

    Raises UnitError for what is no number, no known unit, or more than one number.
    """
    if len(text) > LONGEST_TEXT:
        raise UnitError(_("this value is too long"), _("at most {n} characters").format(n=LONGEST_TEXT))
    tidy = " ".join(text.split())
    found = re.match(r"([-−]?) ?\$", tidy)
    if not found:
        value, style, left = number(tidy)
        one = unit(left)
        return Quantity(one.to_base(value), one, tidy, style)
    value, style, left = number(found[1] + tidy[found.end() :].lstrip())
    if left and not left.startswith("/"):
        what = _("'{text}' after an amount of money is not understood").format(text=left[:20])
        raise UnitError(what, _("write '$14.50'"))
    one = unit("$" + left)
    return Quantity(one.to_base(value), one, tidy, style)


def show(
    value: Fraction,
    unit: Unit,
    *,
    step: Fraction | None = None,
    digits: int | None = None,
    mark: str = ".",
    fraction: bool = False,
) -> str:
    """A base value as a person reads it in a unit: "2.40 mL", "1/2 in", "$23.40"; halves go away from zero.

    `value` and `step` (the rounding step) are in the coherent base; `digits` are significant digits; with neither, all
    digits of a value that ends, else six. `mark` is the decimal mark; `fraction` writes "2 1/2" instead of "2.5".
    """
    plain = unit.from_base(value)
    if step is not None:
        size = step / unit.factor
        plain = nearest(plain, size)
        text = _fraction_text(plain) if fraction else _fixed(plain, _places(size))
    elif unit.symbol == "$" and digits is None:
        text = _fixed(plain, 2 if _places(plain) <= 2 else 4)
    elif fraction:
        text = _fraction_text(plain)
    else:
        text = _significant(plain, digits)
    return _dressed(text.replace(".", mark), plain, unit)


def _dressed(text: str, plain: Fraction, unit: Unit) -> str:
    """The number with its unit before or behind."""
    symbol = unit.symbol
    if symbol.startswith("$"):
        return ("-$" + text[1:] if text.startswith("-") else "$" + text) + symbol[1:]
    if symbol in _PLURALS and not 0 < abs(plain) <= 1:
        symbol = _PLURALS[symbol]
    return f"{text} {symbol}" if symbol else text


def _places(value: Fraction) -> int:
    """Decimal places that a number needs, 12 at most for one that does not end."""
    for places in range(12):
        if (value * 10**places).denominator == 1:
            return places
    return 12


def _fixed(value: Fraction, places: int) -> str:
    count = int(nearest(value * 10**places, 1))
    figures = str(abs(count)).rjust(places + 1, "0")
    text = f"{figures[:-places]}.{figures[-places:]}" if places else figures
    return f"-{text}" if count < 0 else text


def _significant(value: Fraction, digits: int | None) -> str:
    if value == 0:
        return "0"
    if digits is None and _places(value) < 12:
        return _fixed(value, _places(value))
    wanted = digits or 6
    places = wanted - 1 - _exponent(value)
    rounded = nearest(value, Fraction(10) ** -places)
    places = wanted - 1 - _exponent(rounded)
    return _fixed(rounded, max(places, 0))


def _exponent(value: Fraction) -> int:
    """The power of ten of the leading digit."""
    size = abs(value)
    guess = len(str(size.numerator)) - len(str(size.denominator))
    return guess if size >= Fraction(10) ** guess else guess - 1


def _fraction_text(value: Fraction) -> str:
    sign = "-" if value < 0 else ""
    whole, part = divmod(abs(value), 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


@lru_cache(maxsize=1)
def registry() -> "pint.UnitRegistry[Any]":
    """The pint registry of the same declared units; built once, on first use. `pint_name` gives their names in it."""
    import pint

    ours: pint.UnitRegistry[Any] = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=False)
    for base in ("length", "mass", "time", "kelvin", "mol", "money", "turn", "ppm", "sound"):
        ours.define(f"base_{base} = [{base}]")
    for one in UNITS:
        scale = "*".join(f"base_{base}**{power}" for base, power in one.kind.dims) or "1"
        offset = f"; offset: {float(one.offset)!r}" if one.offset else ""
        ours.define(f"{pint_name(one)} = {float(one.factor)!r} * {scale}{offset}")
    return ours


_PINT_NAMES = {"%": "percent", "$": "dollar", "¢": "cent", "µm": "um", "µg": "ug", "°C": "degC", "°F": "degF"}


def pint_name(one: Unit) -> str:
    """The name of a declared unit in `registry()`: letters, digits and underscores only."""
    name = _PINT_NAMES.get(one.symbol, one.symbol)
    return "u_" + name.replace("²", "2").replace("³", "3").replace(" ", "_")
