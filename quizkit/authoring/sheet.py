"""`signoff.md`: what a trainer observes against."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from quizkit.authoring.amounts import amount_of, read_unit
from quizkit.authoring.answers import read_difference
from quizkit.authoring.blocks import Block, split
from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.labels import SHEET, SHEET_TEXT, Label, Piece, outline
from quizkit.authoring.markdown import Chunk, chunks, inline_nodes
from quizkit.authoring.notes import Notes
from quizkit.authoring.parts import formula_and_tail
from quizkit.authoring.prose import check_table, read_prose, split_title
from quizkit.authoring.rows import rows_where
from quizkit.authoring.source import Source, Stretch
from quizkit.authoring.spans import parted
from quizkit.authoring.tables import Table
from quizkit.authoring.texts import Names, kind_in, read_formula, unit_shown
from quizkit.formula import Given, Grid, Row, Rows, name_fault
from quizkit.pack.model import Judge, Measure, Sheet, Step
from quizkit.pack.nodes import Node, plain
from quizkit.pack.shelf import Shelf
from quizkit.units import DATE, DIFFERENCE, PLAIN, Kind, Unit, UnitError, quantity, unit
from quizkit.words import _

MATERIAL = "material"
"""The name of the picked row in the formulas of a sheet."""

TITLES = ("measure", "in", "what")
_LIMITS = re.compile(
    r"\s*(?:between\s+(?P<low>.+?)\s+and\s+(?P<high>.+?)|at\s+most\s+(?P<most>.+?)|at\s+least\s+(?P<least>.+?))\s*",
    re.S,
)


def read_sheet(source: Source, shelf: Shelf) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    """Read a sign-off file; None where an error stands in it."""
    blocks, problems = split(source)
    reader = _Reader(Notes(source), shelf)
    reader.notes.problems += problems
    for block in blocks:
        reader.block(block)
    sheet = reader.finish()
    return (None if reader.notes.failed else sheet), tuple(reader.notes.problems)


@dataclass(slots=True)
class _Reader:
    notes: Notes
    shelf: Shelf
    names: Names = field(default_factory=Names)
    body: list[Node] = field(default_factory=list)
    rows: tuple[Row, ...] = ()
    material: Label | None = None
    steps: list[Step] = field(default_factory=list)
    measures: list[Measure] = field(default_factory=list)
    judge_labels: list[Label] = field(default_factory=list)
    sheets: int = 0

    def block(self, block: Block) -> None:
        end = block.line - 1 + len(block.lines)
        if block.kind == "text":
            pieces, told = outline(self.notes.source, SHEET_TEXT, block.line - 1, end)
            self.notes.problems += told
            self.text(pieces)
        elif block.kind == "sheet" and block.whole:
            self.sheets += 1
            pieces, told = outline(self.notes.source, SHEET, block.line, end)
            self.notes.problems += told
            self.sheet(block, pieces)
        elif block.kind == "question":
            spot = Spot(block.line, 1, len(block.lines[0]))
            self.notes.tell("J01", spot, _("a question does not stand in signoff.md"), _("move it into a lesson"))
        elif block.whole:
            pieces, told = outline(self.notes.source, SHEET_TEXT, block.line, end)
            self.notes.problems += told
            self.text(pieces)

    def text(self, pieces: tuple[Piece, ...]) -> None:
        self.body += read_prose(self.notes, pieces)
        for piece in pieces:
            if isinstance(piece, Label) and piece.word == "Material":
                if self.material is not None:
                    self.notes.tell("Q04", piece.spot, _("'Material:' stands here twice"), _("delete one"))
                self.material = piece

    def sheet(self, block: Block, pieces: tuple[Piece, ...]) -> None:
        if self.sheets > 1:
            spot = Spot(block.line, 1, len(block.lines[0]))
            self.notes.tell("J01", spot, _("this is a second sheet"), _("put all steps into one"))
        for piece in pieces:
            if isinstance(piece, Label):
                self.judge_labels.append(piece)
                continue
            for chunk in chunks(piece.body):
                self.chunk(chunk)

    def chunk(self, chunk: Chunk) -> None:
        check_table(self.notes, chunk)
        if chunk.kind == "ordered_list":
            self.steps += [self.step(item) for item in chunk.items()]
        elif chunk.kind == "table":
            self.table(chunk.table())
        else:
            spot = chunk.body.spot(0, len(chunk.body.text.split("\n")[0]))
            self.notes.tell(
                "J01",
                spot,
                _("a sheet holds numbered steps, a table and judges"),
                _("move this text above '::: sheet'"),
            )

    def step(self, item: Stretch) -> Step:
        found = re.match(r"!\s*", item.text)
        text = item.cut(found.end()) if found else item
        if not text.text.strip():
            self.notes.tell("J01", item.spot(), _("this step says nothing"), _("write what must be seen"))
        return Step(inline_nodes(text), found is not None)

    def table(self, table: Table) -> None:
        if table.titles != TITLES:
            what = _("this table is not headed 'Measure', 'In' and 'What'")
            self.notes.tell("J02", table.head[0], what, _("give it these three columns"))
            return
        for row in table.rows:
            self.measure(row)

    def measure(self, row: tuple[Stretch, ...]) -> None:
        if len(row) < 3:
            self.notes.tell("J02", row[0], _("a cell of this row is missing"), _("fill all three"))
            return
        name_cell, unit_cell, what_cell = row[:3]
        asked = read_unit(self.notes, unit_cell)
        for piece in name_cell.text.split(","):
            name = piece.strip(" `")
            start = name_cell.text.index(piece) + len(piece) - len(piece.lstrip())
            place = name_cell.cut(start, start + len(name))
            fault = name_fault(name) or (_("'material' is the row in use") if name == MATERIAL else "")
            if not fault and any(measure.name == name for measure in self.measures):
                fault = _("'{name}' is measured twice").format(name=name)
            if fault:
                self.notes.tell("G09", place, fault, _("choose another name"))
            if fault or asked is None:
                self.names.broken.add(name)
                continue
            self.measures.append(Measure(name, asked.symbol, inline_nodes(what_cell)))
            self.names.kinds[name] = asked.kind
            self.names.units[name] = asked

    def finish(self) -> Sheet:
        self.pick_rows()
        judges = tuple(judge for label in self.judge_labels if (judge := self.judge(label)) is not None)
        names = [label.name for label in self.judge_labels]
        for label in self.judge_labels:
            if names.count(label.name) > 1:
                self.notes.tell("Q04", label.spot, _("two judges have this name"), _("give each its own"))
        title, rest = split_title(tuple(self.body))
        if title is None:
            self.notes.tell("K03", Spot(), _("this sheet has no title"), _("begin it with '# Title'"))
        if not self.sheets:
            self.notes.tell("J01", Spot(), _("there is no '::: sheet' here"), _("add it, with numbered steps"))
        elif not self.steps:
            self.notes.tell("J01", Spot(), _("this sheet has no steps"), _("number what must be seen"))
        return Sheet(
            title=plain(title.children) if title else "",
            body=rest,
            materials=tuple(row.name for row in self.rows),
            steps=tuple(self.steps),
            measures=tuple(self.measures),
            judges=judges,
        )

    def pick_rows(self) -> None:
        """The rows that may be used: those that have every field which a judge needs."""
        if self.material is None:
            return
        found = rows_where(self.notes, self.material.body, self.shelf)
        if found is None:
            self.names.broken.add(MATERIAL)
            return
        text = " ".join(label.body.text for label in self.judge_labels)
        used = set(re.findall(rf"\b{MATERIAL}\.([a-z][a-z0-9_]*)", text))
        known = [column.field for column in self.shelf.columns if column.field in used]
        self.rows = tuple(row for row in found if all(row.field(name) is not None for name in known))
        if not self.rows:
            what = _("the shelf has no material for this")
            self.notes.tell("J04", self.material.body, what, _("change the condition, or fill the cells of the shelf"))
            self.names.broken.add(MATERIAL)
            return
        given = Given(MATERIAL, None, Rows(self.rows))
        self.names.kinds.update(Grid((given,)).kinds(self.shelf.kinds()))
        for column in self.shelf.columns:
            home = unit(column.unit) if column.sort == "amount" else PLAIN
            self.names.units[f"{MATERIAL}.{column.field}"] = home

    def judge(self, label: Label) -> Judge | None:
        if not label.name:
            self.notes.tell("J03", label.spot, _("this judge has no name"), _("write 'Judge NAME:'"))
        found = formula_and_tail(self.notes, label)
        if found is None:
            return None
        place, tail = found
        formula = read_formula(self.notes, place)
        kind = kind_in(self.notes, place, formula, self.names, self.names.kinds) if formula else None
        limits_place, feedback = parted(tail)
        limits = _LIMITS.fullmatch(limits_place.text)
        if limits is None:
            self.notes.tell(
                "J03",
                limits_place if limits_place.text else place,
                _("these limits cannot be read"),
                _("write 'between A and B', 'at most A' or 'at least A'"),
            )
            return None
        if feedback is None or not feedback.text:
            self.notes.tell("Q17", place, _("it is not said what to do then"), _("add ' -- ' and a sentence"))
        if formula is None or kind is None:
            return None
        home = self.home(place, limits_place, kind, unit_shown(formula, kind, self.names))
        if home is None:
            return None
        low = self.limit(limits_place, limits, ("low", "least"), kind, home)
        high = self.limit(limits_place, limits, ("high", "most"), kind, home)
        if low is not None and high is not None and low > high:
            self.notes.tell("J03", limits_place, _("these limits go down"), _("put the smaller one first"))
        said = inline_nodes(feedback) if feedback else ()
        shown = self.written(limits_place, kind) or home
        return Judge(label.name, formula.text, shown.symbol, low, high, said)

    def home(self, place: Stretch, limits: Stretch, kind: Kind, shown: Unit | None) -> Unit | None:
        """The unit of a bare limit, and the one in which a judged value is shown."""
        if kind == DATE or kind.special:
            self.notes.tell("J03", place, _("{kind} cannot be judged").format(kind=str(kind)), _("judge a number"))
            return None
        if shown is not None:
            return shown
        if kind == DIFFERENCE:
            return unit("°C apart")
        written = self.written(limits, kind)
        if written is not None:
            return written
        what = _("it is not clear in which unit this is judged: it is {kind}").format(kind=str(kind))
        self.notes.tell("J03", limits, what, _("write the limits with their unit"))
        return None

    @staticmethod
    def written(limits: Stretch, kind: Kind) -> Unit | None:
        """The unit that is written in the limits, in which the judged value is shown as well; None for bare limits."""
        for text in re.split(r"\b(?:between|and|at most|at least)\b", limits.text):
            try:
                found = quantity(" ".join(text.split())).unit if text.strip() else PLAIN
            except UnitError:
                continue
            if found.kind == kind and found != PLAIN:
                return found
        return None

    def limit(
        self, place: Stretch, found: re.Match[str], groups: tuple[str, str], kind: Kind, home: Unit
    ) -> Fraction | None:
        group = next((name for name in groups if found[name] is not None), None)
        if group is None:
            return None
        value = place.cut(found.start(group), found.end(group))
        if kind == DIFFERENCE:
            return read_difference(self.notes, value, home)
        return amount_of(self.notes, value, kind, home)
