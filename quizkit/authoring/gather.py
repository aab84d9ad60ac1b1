"""Sorting the pieces of a question block: which label belongs to which part, and what kind of question it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from quizkit.authoring.diagnostics import Spot
from quizkit.authoring.givens import is_given_table
from quizkit.authoring.labels import Label, Piece, Prose
from quizkit.authoring.markdown import Chunk, chunks
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.notes import Notes
from quizkit.authoring.options import is_options, is_pair_table
from quizkit.authoring.parts import Draft
from quizkit.authoring.prose import check_table
from quizkit.authoring.source import Stretch
from quizkit.authoring.tables import Table, row_cells
from quizkit.words import _

_BEGIN_WITH_A_FORMULA = ("Answer", "Slip")


@dataclass(slots=True)
class Gathered:
    """The labels and chunks of a question block, each in its place. `first` is its opening line."""

    first: Label
    topic: Label | None = None
    use: Label | None = None
    critical: Label | None = None
    givens: Table | None = None
    where: list[Label] = field(default_factory=list)
    prompt: list[Chunk | Label] = field(default_factory=list)
    workings: list[Label] = field(default_factory=list)
    sources: list[Label] = field(default_factory=list)
    drafts: list[Draft] = field(default_factory=list)
    options: Chunk | None = None
    items: Chunk | None = None
    pairs: Table | None = None
    torn: set[str] = field(default_factory=set)
    """What begins the lines of pipes that became no table, and may be meant as the name of a given."""


def gather(notes: Notes, pieces: Sequence[Piece]) -> Gathered:
    """Sort the pieces of a block. What stands twice, alone or among the wrong neighbours is told."""
    opening = notes.source.lines[0]
    first = Label("", "", Spot(1, 1, max(1, len(opening.rstrip()))), Stretch(opening))
    gatherer = _Gatherer(notes, Gathered(first))
    for piece in pieces:
        if isinstance(piece, Label):
            gatherer.label(piece)
        else:
            gatherer.prose(piece)
    gatherer.finish()
    return gatherer.got


class _Gatherer:
    def __init__(self, notes: Notes, got: Gathered) -> None:
        self.notes = notes
        self.got = got
        self.nearest: Draft | None = None  # the part of the nearest answer above
        self.asked: Draft | None = None  # the part whose Ask stands right above
        self.order: Label | None = None
        self.named: list[Label] = []
        self.whole: list[Label] = []
        self.pair_place: Stretch | None = None

    def label(self, label: Label) -> None:
        if label.torn:
            label = _without_code(label)
        match label.word:
            case "Topic" | "Use":
                self.once(label.word.lower(), label)
            case "Where":
                self.got.where += [] if label.torn else [label]
            case "Source":
                self.got.sources.append(label)
            case "Figure":
                self.figure(label)
            case "Ask":
                self.ask(label)
            case "Answer":
                self.answer(label)
            case "Order":
                self.begin_order(label)
            case _:
                self.belonging(label)

    def once(self, slot: str, label: Label) -> None:
        if getattr(self.got, slot) is not None:
            self.twice(label)
        else:
            setattr(self.got, slot, label)

    def twice(self, label: Label) -> None:
        self.notes.tell("Q04", label.spot, _("'{word}:' stands here twice").format(word=label.word), _("delete one"))

    def draft(self, name: str) -> Draft | None:
        return next((draft for draft in self.got.drafts if draft.name == name), None)

    def ask(self, label: Label) -> None:
        name = label.name or "answer"
        found = self.draft(name)
        if found is not None:
            what = _("the part '{name}' is asked twice").format(name=name)
            self.notes.tell("Q04", label.spot, what, _("give each part its own name: 'Ask NAME:'"))
            return
        self.asked = Draft(name, ask=label)
        self.got.drafts.append(self.asked)

    def answer(self, label: Label) -> None:
        name = label.name or "answer"
        found = self.draft(name)
        if found is None and not label.name and not self.got.drafts:
            found = Draft(name)
            self.got.drafts.append(found)
        if found is None:
            what = _("nothing asks for '{name}'").format(name=name)
            mend = _("put a line 'Ask {name}:' with the question above it").format(name=name)
            self.notes.tell("Q07", label.spot, what, mend)
            found = Draft(name)  # its slips are still read for what is wrong in them
        elif found.answer is not None or found.options is not None:
            self.notes.tell("Q04", label.spot, _("'{name}' is answered twice").format(name=name), _("delete one"))
            found = Draft(name)
        found.answer = label
        self.nearest, self.asked = found, None

    def begin_order(self, label: Label) -> None:
        if self.order is not None:
            self.twice(label)
        if label.body.text:
            what = _("nothing may follow 'Order:' on its line")
            self.notes.tell("C05", label.body, what, _("put the numbered list below, after a blank line"))
        self.order = label

    def figure(self, label: Label) -> None:
        if label.torn:
            return
        if self.asked is not None:
            self.asked.figures.append(label)
        else:
            self.got.prompt.append(label)

    def belonging(self, label: Label) -> None:
        """Slip, Plausible, Working, Critical: by name, else to the nearest answer above, else to the whole."""
        if label.name:
            self.named.append(label)
        elif self.nearest is not None:
            self.give(self.nearest, label)
        else:
            self.whole.append(label)

    def give(self, draft: Draft, label: Label) -> None:
        match label.word:
            case "Slip":
                draft.slips.append(label)
            case "Working":
                draft.workings.append(label)
            case "Plausible" | "Critical":
                slot = label.word.lower()
                if getattr(draft, slot) is not None:
                    self.twice(label)
                setattr(draft, slot, label)

    def prose(self, piece: Prose) -> None:
        for chunk in chunks(piece.body):
            if not check_table(self.notes, chunk):
                self.got.torn |= {row_cells(Stretch(line))[0].text for line in chunk.body.text.split("\n")}
            if chunk.kind == "table":
                self.table(chunk)
            elif is_options(chunk):
                self.options(chunk)
            elif chunk.kind == "ordered_list" and self.order is not None:
                self.items(chunk)
            else:
                self.text(chunk)

    def table(self, chunk: Chunk) -> None:
        table = chunk.table()
        if is_given_table(table):
            if self.got.givens is not None:
                self.notes.tell("Q04", table.head[0], _("a second table of givens"), _("make one table of both"))
            else:
                self.got.givens = table
        elif is_pair_table(table):
            if self.got.pairs is not None:
                self.notes.tell("Q04", table.head[0], _("a second table of pairs"), _("make one table of both"))
            self.got.pairs, self.pair_place = table, table.head[0]
        else:
            self.text(chunk)

    def options(self, chunk: Chunk) -> None:
        if self.asked is not None and self.asked.answer is None:
            if self.asked.options is not None:
                self.notes.tell("Q04", chunk.body.spot(), _("a second list of options"), _("make one list of both"))
            self.asked.options = chunk
        elif self.got.options is not None:
            self.notes.tell("Q04", chunk.body.spot(), _("a second list of options"), _("make one list of both"))
        else:
            self.got.options = chunk

    def items(self, chunk: Chunk) -> None:
        if self.got.items is not None:
            self.text(chunk)
        else:
            self.got.items = chunk

    def text(self, chunk: Chunk) -> None:
        started = self.got.drafts or self.got.options or self.got.items or self.got.pairs
        if started:
            self.notes.tell(
                "Q08",
                chunk.body.spot(0, len(chunk.body.text.split("\n")[0])),
                _("this text belongs to no label"),
                _("move it above the answer, or begin it with a label such as 'Working:'"),
            )
        else:
            self.got.prompt.append(chunk)

    def finish(self) -> None:
        for label in self.named:
            found = self.draft(label.name)
            if found is None:
                what = _("there is no part '{name}'").format(name=label.name)
                mend = did_you_mean(label.name, [draft.name for draft in self.got.drafts])
                self.notes.tell("Q10", label.spot, what, mend)
            else:
                self.give(found, label)
        for label in self.whole:
            self.give_whole(label)
        for draft in self.got.drafts:
            if draft.answer is None and draft.options is None:
                what = _("nothing answers '{name}'").format(name=draft.name)
                mend = _("add 'Answer {name}:', or options below").format(name=draft.name)
                self.notes.tell("Q06", (draft.ask or self.got.first).spot, what, mend)
            elif draft.options is not None:
                self.no_numeric_labels(draft)
        self.check_kind()

    def no_numeric_labels(self, draft: Draft) -> None:
        for label in (*draft.slips, *([draft.plausible] if draft.plausible else ())):
            what = _("'{word}:' goes with a number, '{name}' is a choice").format(word=label.word, name=draft.name)
            self.notes.tell("Q05", label.spot, what, _("put feedback behind ' -- ' in the option"))

    def give_whole(self, label: Label) -> None:
        """Labels above the first answer: weight and working of the whole, the rest of its only part."""
        match label.word:
            case "Critical":
                self.once("critical", label)
            case "Working":
                self.got.workings.append(label)
            case _:
                numbers = [draft for draft in self.got.drafts if draft.answer is not None]
                if len(numbers) == 1:
                    self.give(numbers[0], label)
                else:
                    what = _("'{word}:' stands above the answer that it belongs to").format(word=label.word)
                    self.notes.tell("Q10", label.spot, what, _("move it below, or name the part"))

    def check_kind(self) -> None:
        got = self.got
        if self.order is not None and got.items is None:
            what = _("no numbered list follows 'Order:'")
            self.notes.tell(
                "C05", self.order.spot, what, _("write the list below, numbered from 1, after a blank line")
            )
        found = [
            place
            for place in (
                got.drafts and (got.drafts[0].ask or got.drafts[0].answer or got.first).spot,
                got.options and got.options.body.spot(0, len(got.options.body.text.split("\n")[0])),
                self.order and self.order.spot,
                self.pair_place and self.pair_place.spot(),
            )
            if place
        ]
        if not found:
            what = _("this question has no answer")
            mend = _("add 'Answer:', options with '- [x]', 'Order:' with a list, or a table headed 'Pair' and 'With'")
            self.notes.tell("Q09", got.first.spot, what, mend)
        elif len(found) > 1:
            place = max(found, key=lambda spot: spot.line)
            what = _("this question is of two kinds at once")
            mend = _("make two questions of it, or ask each part with 'Ask NAME:'")
            self.notes.tell("Q05", place, what, mend)


def _without_code(label: Label) -> Label:
    """A label whose backticks do not pair: of its formula nothing can be said, its words stand without code."""
    text = "`" if label.word in _BEGIN_WITH_A_FORMULA else label.body.text.replace("`", " ").strip()
    return replace(label, body=replace(label.body, text=text))
