"""What a dotted name of a formula means: a value, a side of a ratio, or the plain number in a unit."""

from collections.abc import Container
from dataclasses import dataclass

from quizkit.formula.errors import FormulaError
from quizkit.formula.tree import Name
from quizkit.units import Unit, UnitError, unit
from quizkit.words import _

SIDES = ("a", "b")


@dataclass(frozen=True, slots=True)
class Meaning:
    """The known dotted name that a path begins with, then a side of a ratio ("a", "b" or "") and a unit or None."""

    name: str
    side: str
    unit: Unit | None


def meaning(node: Name, known: Container[str]) -> Meaning:
    """Split a path at the longest known name. Raises FormulaError where nothing known begins it, or what follows is no
    side and no unit; whether a side or a unit fits there is the dimension check's matter.
    """
    path = node.path
    for cut in range(len(path), 0, -1):
        name = ".".join(path[:cut])
        if name in known:
            return _with_rest(node, name, path[cut:])
    raise FormulaError("unknown-name", node.place.column, node.place.length, _unknown(path))


def _unknown(path: tuple[str, ...]) -> str:
    return _("'{name}' is not known here").format(name=path[0])


def _with_rest(node: Name, name: str, rest: tuple[str, ...]) -> Meaning:
    side = rest[0] if rest and rest[0] in SIDES else ""
    units = rest[1:] if side else rest
    if not units:
        return Meaning(name, side, None)
    try:
        if len(units) == 1:
            return Meaning(name, side, unit(units[0].replace("_", " ")))
    except UnitError:
        pass
    what = _("'{name}' has no field '{field}'").format(name=name, field=".".join(rest))
    raise FormulaError("unknown-field", node.place.column, node.place.length, what)
