"""Kinds of value: the physical dimensions, our own beside them, and what is no plain magnitude."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from quizkit.words import _

Exponent = int | Fraction


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
    MONEY.over(VOLUME): "money per volume",
    MONEY.over(LENGTH): "money per length",
    MOL: "an amount of substance",
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
