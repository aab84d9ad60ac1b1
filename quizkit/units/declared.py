"""The declared units: each with its kind, its exact factor to the coherent base, and how people spell it."""

import difflib
from dataclasses import dataclass, field
from fractions import Fraction

from quizkit.units.kinds import (
    AREA,
    FORCE,
    LENGTH,
    MASS,
    MOL,
    MONEY,
    NUMBER,
    PPM,
    PRESSURE,
    SOUND,
    TEMPERATURE,
    TIME,
    TURN,
    VISCOSITY,
    VOLUME,
    Kind,
)


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one kind: base value = value × factor + offset, exactly."""

    symbol: str
    kind: Kind
    factor: Fraction
    offset: Fraction = Fraction(0)
    scale: float = field(init=False, repr=False, compare=False)
    shift: float = field(init=False, repr=False, compare=False)
    """Factor and offset as the nearest floats, for arrays: turned once, not at each formula."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "scale", float(self.factor))
        object.__setattr__(self, "shift", float(self.offset))

    def to_base(self, value: Fraction) -> Fraction:
        """A number in this unit, in the coherent base."""
        return value * self.factor + self.offset

    def from_base(self, value: Fraction) -> Fraction:
        """A value of the coherent base, in this unit."""
        return (value - self.offset) / self.factor

    def measures_like(self, other: "Unit") -> bool:
        """Whether a number is worth the same in both units, as in mL and cc."""
        return (self.kind, self.factor, self.offset) == (other.kind, other.factor, other.offset)


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
    ("mPa", PRESSURE, Fraction(1, 1000), "millipascal"),
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
PLURALS = {"turn": "turns", "day": "days", "week": "weeks"}
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


def known(name: str) -> Unit | None:
    """The declared unit of this spelling: exactly, else without regard to capitals where that leaves one; or None."""
    return _EXACT.get(name) or _LOOSE.get(name.casefold())


def nearest_known(name: str) -> str:
    """The symbol of the declared unit whose spelling is nearest, or "" where none is near."""
    close = difflib.get_close_matches(name.casefold(), _LOOSE, n=1, cutoff=0.5) if len(name) <= 20 else []
    return _LOOSE[close[0]].symbol if close else ""
