"""The first arithmetic: kinds of value. Once a question, before any number is looked at."""

import difflib
from collections.abc import Iterable, Mapping
from fractions import Fraction
from itertools import islice, product
from typing import TypeAlias

from quizkit.formula.bounds import constant
from quizkit.formula.errors import FormulaError
from quizkit.formula.resolve import meaning
from quizkit.formula.tree import (
    Call,
    Comparison,
    Every,
    Formula,
    Name,
    Negative,
    Node,
    Numeral,
    Operation,
    Text,
)
from quizkit.trade import SUMS, Sum
from quizkit.units import (
    CONCENTRATION,
    DIFFERENCE,
    MASS,
    NUMBER,
    PPM,
    TEMPERATURE,
    TEXT,
    TRUTH,
    VOLUME,
    Kind,
    KindError,
    kind,
)
from quizkit.words import _

ZERO = Kind((), "zero")
"""The numeral 0: it fits every kind but a point."""

MOST_TRIES = 500
"""Ways to read the numerals 0 among the values of one sum, before it is told as a fault."""

Kinds: TypeAlias = Mapping[str, Kind]


def kind_of(formula: Formula, kinds: Kinds) -> Kind:
    """The kind of a formula's value (TRUTH for a condition), given the kind of each dotted name it may use.

    `kinds` holds givens, earlier parts and fields ("material.price"); sides of a ratio need no entry. Raises
    FormulaError (unknown-name, unknown-field, unit-mismatch, not-a-slip, bad-exponent) at the place of the fault.
    """
    return _settled(_kind(formula.tree, kinds, formula.slip))


def _settled(found: Kind) -> Kind:
    return NUMBER if found == ZERO else found


def _kind(node: Node, kinds: Kinds, slip: bool) -> Kind:
    match node:
        case Numeral():
            return ZERO if node.value == 0 else NUMBER
        case Text():
            return TEXT
        case Name():
            return _name(node, kinds, slip)
        case Negative():
            return _scaled(node, _kind(node.of, kinds, slip))
        case Operation():
            return _operation(node, kinds, slip)
        case Call():
            return _call(node, [_kind(argument, kinds, slip) for argument in node.arguments])
        case Comparison():
            _same([_kind(side, kinds, slip) for side in node.sides], node.sides, node)
            return TRUTH
        case Every():
            for part in node.parts:
                _kind(part, kinds, slip)
            return TRUTH


def _error(node: Node, what: str, mend: str = "", code: str = "unit-mismatch") -> FormulaError:
    return FormulaError(code, node.place.column, node.place.length, what, mend)


def _name(node: Name, kinds: Kinds, slip: bool) -> Kind:
    try:
        found = meaning(node, kinds)
    except FormulaError as error:
        ratio = kinds.get(node.path[0], NUMBER).special.startswith("ratio")
        error.mend = _("a ratio has the sides .a and .b") if ratio else _nearest(".".join(node.path), kinds)
        raise
    got = kinds[found.name]
    if found.side:
        if not got.special.startswith("ratio"):
            what = _("'{name}' is {kind} and has no sides").format(name=found.name, kind=str(got))
            raise _error(node, what, _("only a ratio has .a and .b"), "unknown-field")
        got = NUMBER
    if found.unit is None:
        return got
    fits = found.unit.kind == got
    if not slip and fits:
        what = _("a value in a unit, like '{name}', stands in a slip only").format(name=".".join(node.path))
        raise _error(node, what, _("leave the unit out: formulas know the units of their values"), "not-a-slip")
    if not slip:
        what = _("'{name}' has no field '{field}'").format(name=found.name, field=node.path[-1])
        raise _error(node, what, _nearest(".".join(node.path), kinds), "unknown-field")
    if not fits:
        what = _("'{name}' is {kind}, not {other}").format(
            name=found.name, kind=str(got), other=_with_symbol(found.unit.kind, found.unit.symbol)
        )
        apart = got == DIFFERENCE and found.unit.kind == TEMPERATURE
        raise _error(node, what, _("write {name}_apart").format(name=".".join(node.path)) if apart else "")
    return NUMBER


def _with_symbol(kind_: Kind, symbol: str) -> str:
    return f"{kind_} ({symbol})" if symbol else str(kind_)


def _nearest(name: str, known: Iterable[str]) -> str:
    close = difflib.get_close_matches(name, list(known), n=1, cutoff=0.6)
    if close:
        return _("did you mean {word}?").format(word=close[0])
    return _("name a given of this question, or an earlier part")


def _scaled(node: Node, got: Kind) -> Kind:
    if got.special not in ("", "zero"):
        raise _error(node, _("{kind} takes no minus sign").format(kind=str(got)))
    return got


def _operation(node: Operation, kinds: Kinds, slip: bool) -> Kind:
    left, right = _kind(node.left, kinds, slip), _kind(node.right, kinds, slip)
    match node.sign:
        case "+" | "-":
            return _added(node, left, right)
        case "**":
            return _power(node, _settled(left), _settled(right))
        case sign:
            first, second = _settled(left), _settled(right)
            try:
                return first.times(second) if sign == "*" else first.over(second)
            except KindError as error:
                side = node.left if first.special else node.right
                raise _error(side, error.what, error.mend or _point_mend(first, second)) from None


def _added(node: Operation, left: Kind, right: Kind) -> Kind:
    if left == TEMPERATURE and right == TEMPERATURE and node.sign == "-":
        return DIFFERENCE
    if left == TEMPERATURE and right == DIFFERENCE:
        return TEMPERATURE
    if left == DIFFERENCE and right == TEMPERATURE and node.sign == "+":
        return TEMPERATURE
    for side, got in ((node.left, left), (node.right, right)):
        if got.special not in ("", "zero"):
            what = _("{kind} takes no {sign}").format(kind=str(got), sign=node.sign)
            raise _error(side, what, _point_mend(left, right))
    return _same([left, right], (node.left, node.right), node)


def _point_mend(left: Kind, right: Kind) -> str:
    if TEMPERATURE in (left, right):
        return _("a temperature is a point: subtract two of them, compare them, or use a sum that takes one")
    if "date" in (left.special, right.special):
        return _("use months_after, month_end or days_between")
    if left.special.startswith("ratio") or right.special.startswith("ratio"):
        return _("use its sides, ratio.a and ratio.b, or a sum that takes a ratio")
    return ""


def _power(node: Operation, base: Kind, exponent: Kind) -> Kind:
    if exponent != NUMBER:
        what = _("an exponent is a plain number, not {kind}").format(kind=str(exponent))
        raise _error(node.right, what, "", "bad-exponent")
    if base == NUMBER:
        return NUMBER
    known = constant(node.right)
    if known is None:
        what = _("the exponent of {kind} must be written out").format(kind=str(base))
        raise _error(node.right, what, _("write a numeral, such as ** 2"), "bad-exponent")
    try:
        return base.power(known)
    except KindError as error:
        raise _error(node.left, error.what, _point_mend(base, NUMBER)) from None


def _same(found: list[Kind], nodes: tuple[Node, ...], whole: Node) -> Kind:
    """The one kind of several sides; the numeral 0 goes with all but a point."""
    others = [got for got in found if got != ZERO]
    if not others:
        return ZERO
    wanted = others[0]
    if wanted.special.startswith("ratio") or wanted.special in ("row", "truth"):
        raise _error(whole, _("{kind} cannot be compared").format(kind=str(wanted)), _point_mend(wanted, wanted))
    for got, node in zip(found, nodes, strict=True):
        if got == ZERO and wanted.special:
            raise _error(node, _("0 is not {kind}").format(kind=str(wanted)))
        if got not in (ZERO, wanted):
            what = _("this is {got}, beside {wanted}").format(got=str(got), wanted=str(wanted))
            raise _error(node, what, _("both sides must be of the same kind"))
    return wanted


def _call(node: Call, found: list[Kind]) -> Kind:
    if node.function in SUMS:
        return _sum(node, found)
    match node.function:
        case "pi":
            return NUMBER
        case "ceil" | "floor":
            return _whole(node, _settled(found[0]))
        case "sqrt":
            try:
                return _settled(found[0]).power(Fraction(1, 2))
            except KindError as error:
                raise _error(node.arguments[0], error.what, _point_mend(found[0], found[0])) from None
        case "abs":
            return _scaled(node.arguments[0], found[0])
        case "min" | "max":
            return _no_text(node, _same(found, node.arguments, node))
        case "at_least":
            _no_text(node, _same(found, node.arguments, node))
            return NUMBER
        case _:
            return _no_point(node, _same(found, node.arguments, node))


def _whole(node: Call, got: Kind) -> Kind:
    if got != NUMBER:
        what = _("{name} takes a plain number, not {kind}").format(name=node.function, kind=str(got))
        raise _error(node.arguments[0], what, _("divide first, or write nearest(x, step)"))
    return NUMBER


def _no_text(node: Call, got: Kind) -> Kind:
    if got == TEXT:
        raise _error(node, _("{name} takes no text").format(name=node.function))
    return got


def _no_point(node: Call, got: Kind) -> Kind:
    if got.special not in ("", "zero"):
        what = _("{name} takes no {kind}").format(name=node.function, kind=str(got))
        raise _error(node, what, _point_mend(got, got))
    return got


def _sum(node: Call, found: list[Kind]) -> Kind:
    """The kind that a sum gives; a numeral 0 among its values is whatever fits."""
    one = SUMS[node.function]
    fits = [_fitting(one, index, found) if got == ZERO else (got,) for index, got in enumerate(found)]
    fault: KindError | None = None
    for chosen in islice(product(*fits), MOST_TRIES):
        try:
            return one.kind(chosen)
        except KindError as error:
            fault = fault or error
    assert fault is not None
    place = node.arguments[fault.argument] if fault.argument is not None else node
    raise _error(place, fault.what, fault.mend, "unit-mismatch" if fault.argument is not None else "wrong-count")


def _fitting(one: Sum, index: int, found: list[Kind]) -> tuple[Kind, ...]:
    """What a numeral 0 at a place of a sum may stand for."""
    try:
        fixed = kind(one.argument(index)[1])
    except (KeyError, IndexError):
        others = [got for got in found if not got.special]
        return tuple(dict.fromkeys([*others, VOLUME, MASS, PPM, CONCENTRATION, NUMBER]))
    return (NUMBER,) if fixed.special else (fixed,)
