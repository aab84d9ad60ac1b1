"""The texts of a question: in them a code span is a name or a formula, and the reader sees its value."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from quizkit.authoring.amounts import read_step, read_unit
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.formula import Formula, FormulaError, kind_of, parse
from quizkit.formula.tree import Name
from quizkit.pack.nodes import Element, Node
from quizkit.units import DATE, DIFFERENCE, MONEY, NUMBER, PLAIN, TEMPERATURE, TEXT, Kind, Unit, unit
from quizkit.words import _

_SHOWN = re.compile(r"(?P<formula>.*?)(?:\s+in\s+(?P<unit>.+?))?(?:\s+to\s+(?P<step>.+))?", re.S)


@dataclass(slots=True)
class Names:
    """What the formulas of a question may use: kinds and units by name, and what could not be read.

    `parts` are the names of parts, whose values a text before the answer must not show. A formula that uses a
    broken name is not checked further: its fault is told where it lies.
    """

    kinds: dict[str, Kind] = field(default_factory=dict)
    units: dict[str, Unit | None] = field(default_factory=dict)
    parts: set[str] = field(default_factory=set)
    broken: set[str] = field(default_factory=set)


def read_formula(notes: Notes, place: Stretch, *, slip: bool = False, where: bool = False) -> Formula | None:
    """The formula that stands in a stretch; None, and told, where it cannot be read."""
    try:
        return parse(place.text.replace("\n", " "), slip=slip, where=where)
    except FormulaError as error:
        notes.tell_formula(place, error)
        return None


def kind_in(notes: Notes, place: Stretch, formula: Formula, names: Names, kinds: Mapping[str, Kind]) -> Kind | None:
    """The kind of a formula; None where it has none (told), or where it uses a name that is broken."""
    if names.broken & set(formula.names):
        return None
    try:
        return kind_of(formula, kinds)
    except FormulaError as error:
        notes.tell_formula(place, error)
        return None


def shower(notes: Notes, names: Names, *, after: bool) -> Callable[[Stretch], Node]:
    """Makes a `value` element of each code span; `after` the answer, the values of parts may be shown too."""

    def show(place: Stretch) -> Node:
        return value_node(notes, names, place, after=after)

    return show


def value_node(notes: Notes, names: Names, place: Stretch, *, after: bool) -> Node:
    """The element of one code span: `value` with the attributes `formula`, `unit` and `step`.

    Without a unit, the value is shown as its name is: a given as typed, a part in its own unit. Without a step, it
    has 3 significant digits. A span that cannot be read is told and stands as it is.
    """
    found = _SHOWN.fullmatch(place.text)
    assert found is not None
    formula_place = place.cut(found.start("formula"), found.end("formula"))
    raw = Element("code", (), (place.text,))
    formula = read_formula(notes, formula_place)
    if formula is None:
        return raw
    shown_parts = [] if after else [name for name in formula.names if name in names.parts]
    if shown_parts:
        notes.tell(
            "Q14",
            formula_place,
            _("'{name}' would show the answer before it is given").format(name=shown_parts[0]),
            _("use it in 'Working' or in the feedback of a slip only"),
        )
        return raw
    kind = kind_in(notes, formula_place, formula, names, names.kinds)
    if kind is None:
        return raw
    attrs = _attrs(notes, names, place, found, formula, kind)
    return raw if attrs is None else Element("value", (("formula", formula.text), *attrs))


def _attrs(
    notes: Notes, names: Names, place: Stretch, found: re.Match[str], formula: Formula, kind: Kind
) -> tuple[tuple[str, str], ...] | None:
    home = unit_shown(formula, kind, names)
    if found["unit"]:
        unit_place = place.cut(found.start("unit"), found.end("unit"))
        asked = read_unit(notes, unit_place)
        if asked is None:
            return None
        if kind == DIFFERENCE and asked.kind == TEMPERATURE:
            asked = unit(f"{asked.symbol} apart")
        if asked.kind != kind:
            what = _("this formula is {kind}, '{unit}' is {other}").format(
                kind=str(kind), unit=asked.symbol, other=str(asked.kind)
            )
            notes.tell("Q21", unit_place, what, _("use a unit of the same kind"))
            return None
        home = asked
    if home is None:
        if bare_name(formula) or kind in (DATE, TEXT) or kind.special:
            return ()
        what = _("it is not clear in which unit this is shown")
        notes.tell("Q15", place, what, _("add 'in' and the unit within the backticks"))
        return None
    if not found["step"]:
        plain = bare_name(formula) and "." not in formula.text and not found["unit"]
        return () if plain else (("unit", home.symbol),)
    step = read_step(notes, place.cut(found.start("step"), found.end("step")), home)
    if step is None:
        return None
    return (("unit", home.symbol), ("step", str(step[0])), *((("style", "fraction"),) if step[1] == "fraction" else ()))


def bare_name(formula: Formula) -> bool:
    """Whether a formula is a name and nothing else."""
    return isinstance(formula.tree, Name)


def unit_shown(formula: Formula, kind: Kind, names: Names) -> Unit | None:
    """The unit of the first given of a formula that is of its own kind; money and plain numbers have theirs."""
    for path in formula.paths:
        found = names.units.get(path)
        if found is not None and found.kind == kind:
            return found
    return {NUMBER: PLAIN, MONEY: unit("$")}.get(kind)
