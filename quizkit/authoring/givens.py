"""The table of givens: names, draws, kinds; and `Where:`."""

from __future__ import annotations

import re
from dataclasses import replace

from quizkit.authoring.draws import read_draw, shown_unit
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import code_spans
from quizkit.authoring.tables import Table
from quizkit.authoring.texts import Names, kind_in, read_formula
from quizkit.formula import (
    LARGEST_GRID,
    Computed,
    FormulaError,
    Given,
    Grid,
    GridError,
    Rows,
    is_irrational,
    name_fault,
)
from quizkit.formula.bounds import constant
from quizkit.formula.grid import computed_kind
from quizkit.formula.tree import Call, Operation, walk
from quizkit.pack.shelf import Shelf
from quizkit.trade import SUMS
from quizkit.units import PLAIN, Kind, unit
from quizkit.words import _, ngettext

TITLES = ("given", "drawn from")


def is_given_table(table: Table) -> bool:
    """Whether a table is meant as the one of the givens."""
    return table.titles[:1] == ("given",)


def read_givens(notes: Notes, table: Table, shelf: Shelf, names: Names) -> tuple[Given, ...]:
    """The givens of a table in order; `names` learns their kinds and units.

    A given that cannot be read is told, left out, and remembered as broken.
    """
    if table.titles != TITLES:
        what = _("this table is not headed 'Given' and 'Drawn from'")
        two = len(table.head) == len(TITLES)
        mend = _("name this column 'Drawn from'") if two else _("give it these two columns")
        notes.tell("G08", table.head[1 if two else 0], what, mend)
        names.broken.update(row[0].text for row in table.rows if row)
        return ()
    reader = _Givens(notes, shelf, names)
    for row in table.rows:
        reader.row(row)
    return reader.finish()


class _Givens:
    def __init__(self, notes: Notes, shelf: Shelf, names: Names) -> None:
        self.notes = notes
        self.shelf = shelf
        self.names = names
        self.found: list[Given] = []
        self.places: dict[str, tuple[Stretch, Stretch]] = {}

    def row(self, cells: tuple[Stretch, ...]) -> None:
        name_place, *rest = cells
        name = name_place.text.strip("` ")
        fault = name_fault(name)
        if fault:
            self.notes.tell("G09", name_place, fault, _("choose another name"))
        elif name in self.places:
            self.notes.tell("G09", name_place, _("'{name}' is given twice").format(name=name), _("rename one"))
            fault = "twice"
        if not rest:
            self.notes.tell("G01", name_place, _("it is not said what this is drawn from"), _("fill the second cell"))
        given = read_draw(self.notes, name, rest[0], self.shelf) if rest else None
        if not fault and rest:
            self.places[name] = (name_place, rest[0])
        if fault or given is None:
            self.names.broken.add(name)
        else:
            self.found.append(given)

    def finish(self) -> tuple[Given, ...]:
        self.found = [self.filled(given) for given in self.found]
        drawn = [given for given in self.found if not isinstance(given.draw, Computed)]
        for given in drawn:
            self.learn(given, Grid((given,)).kinds(self.shelf.kinds()))
        self.check_size(drawn)
        self.computed()
        return tuple(given for given in self.found if given.name not in self.names.broken)

    def learn(self, given: Given, kinds: dict[str, Kind]) -> None:
        self.names.kinds.update(kinds)
        self.names.units[given.name] = given.unit
        if isinstance(given.draw, Rows):
            for column in self.shelf.columns:
                if column.sort == "amount":
                    self.names.units[f"{given.name}.{column.field}"] = unit(column.unit)
                elif column.sort == "number":
                    self.names.units[f"{given.name}.{column.field}"] = PLAIN

    def filled(self, given: Given) -> Given:
        """A draw from the shelf without the rows that have a blank where the question needs a value."""
        if not isinstance(given.draw, Rows):
            return given
        pattern = re.compile(rf"\b{given.name}\.([a-z][a-z0-9_]*)")
        used = {field for line in self.notes.source.lines for field in pattern.findall(line)}
        needed = [column.field for column in self.shelf.columns if column.field in used]
        rows = tuple(row for row in given.draw.rows if all(row.field(field) is not None for field in needed))
        dropped = len(given.draw.rows) - len(rows)
        place = self.places[given.name][1]
        if not rows:
            self.notes.tell(
                "G10",
                place,
                _("the shelf has no material for this"),
                _("the question is left out: the shop does not stock it"),
            )
            # No row tells the kinds of its fields (a ratio by volume or by weight), so no formula can be held to them.
            self.names.broken.add(given.name)
        elif dropped:
            what = ngettext(
                "{n} material is passed over: a cell that this question needs is blank",
                "{n} materials are passed over: a cell that this question needs is blank",
                dropped,
            )
            self.notes.tell("G11", place, what.format(n=dropped), _("fill the cell on the shelf"))
        return replace(given, draw=Rows(rows))

    def check_size(self, drawn: list[Given]) -> None:
        size = Grid(tuple(drawn)).size
        if size > LARGEST_GRID and drawn:
            counts = dict(zip((given.name for given in drawn), Grid(tuple(drawn)).counts, strict=True))
            most = max(counts, key=lambda name: counts[name])
            what = _("these givens make {n} variants, over {most}").format(n=f"{size:,}", most=f"{LARGEST_GRID:,}")
            mend = _("coarsen a step: '{name}' alone has {n} values").format(name=most, n=f"{counts[most]:,}")
            self.notes.tell("G12", self.places[most][1], what, mend)
            self.names.broken.add(most)

    def computed(self) -> None:
        waiting = [given for given in self.found if isinstance(given.draw, Computed)]
        try:
            order = [given for given, _draw in Grid(tuple(waiting)).computed]
        except GridError as error:
            self.notes.tell("G13", self.places[error.name][1], str(error), _("a given is computed from others"))
            self.names.broken.update(given.name for given in waiting)
            return
        for given in order:
            self.one_computed(given)

    def one_computed(self, given: Given) -> None:
        assert isinstance(given.draw, Computed)
        place = self.places[given.name][1]
        formula_place = _formula_place(place, given.draw.formula.text)
        if self.names.broken & set(given.draw.formula.names):
            self.names.broken.add(given.name)
            return
        try:
            kind = computed_kind(given.draw, self.names.kinds)
        except FormulaError as error:
            self.notes.tell_formula(formula_place, error)
            self.names.broken.add(given.name)
            return
        shown = given.unit or shown_unit(given, self.found, kind)
        if shown is None and not kind.special:
            self.notes.tell(
                "G14",
                place,
                _("it is not clear in which unit this is shown"),
                _("add 'in' and a unit behind the formula"),
            )
            self.names.broken.add(given.name)
            return
        if given.draw.step is None and not ends(given.draw):
            self.notes.tell(
                "G15",
                place,
                _("this need not come out even"),
                _("add 'in UNIT to STEP', so that the given is worth what it shows"),
            )
            self.names.broken.add(given.name)
            return
        self.found[self.found.index(given)] = replace(given, unit=shown)
        self.names.kinds[given.name] = kind
        self.names.units[given.name] = shown


def _formula_place(cell: Stretch, formula: str) -> Stretch:
    start = max(0, cell.text.find(formula))
    return cell.cut(start, start + len(formula))


def ends(draw: Computed) -> bool:
    """Whether a computed value surely has an end: nothing in it divides but by a number of twos and fives."""
    if is_irrational(draw.formula.tree):
        return False
    for node in walk(draw.formula.tree):
        if isinstance(node, Call) and node.function in SUMS:
            return False
        if isinstance(node, Operation) and node.sign in ("/", "**"):
            by = constant(node.right)
            if by is None or (node.sign == "/" and not _twos_and_fives(by.numerator)):
                return False
            if node.sign == "**" and by < 0:
                return False
    return True


def _twos_and_fives(number: int) -> bool:
    number = abs(number)
    for prime in (2, 5):
        while number and number % prime == 0:
            number //= prime
    return number == 1


def read_where(notes: Notes, body: Stretch, names: Names) -> str | None:
    """The condition of a `Where:`; None, and told, where it cannot be read."""
    spans, _stray = code_spans(body)
    if len(spans) != 1 or body.text.strip() != body.text[spans[0].start : spans[0].end]:
        notes.tell("Q13", body, _("'Where:' holds one condition in backticks"), _("write it like `end > start`"))
        return None
    formula = read_formula(notes, spans[0].inner, where=True)
    if formula is None:
        return None
    if names.parts & set(formula.names):
        part = next(name for name in formula.names if name in names.parts)
        what = _("'{name}' is a part of this question, not a given").format(name=part)
        notes.tell("Q22", spans[0].inner, what, _("write its formula out"))
        return None
    if kind_in(notes, spans[0].inner, formula, names, names.kinds) is None:
        return None
    return formula.text
