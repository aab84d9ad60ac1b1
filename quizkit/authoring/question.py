"""One `::: question` block into a question of the pack."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.figures import read_figure
from quizkit.authoring.gather import Gathered, gather
from quizkit.authoring.givens import read_givens, read_where
from quizkit.authoring.labels import QUESTION, Label, outline
from quizkit.authoring.markdown import Chunk, block_nodes, inline_nodes
from quizkit.authoring.notes import Notes
from quizkit.authoring.options import read_options, read_order, read_pairs
from quizkit.authoring.parts import Asked, Draft, check_slips, numeric, read_answer
from quizkit.authoring.proof import Proof
from quizkit.authoring.source import Source
from quizkit.authoring.spans import code_spans
from quizkit.authoring.texts import Names, shower
from quizkit.authoring.turned import with_turned
from quizkit.authoring.verdict import Places, proven
from quizkit.formula import Given, name_fault
from quizkit.pack.model import Choice, Match, Nodes, Numeric, Order, Part, Question
from quizkit.pack.nodes import Element, Node, plain
from quizkit.pack.shelf import Shelf
from quizkit.words import _

_CODE = re.compile(r"`([^`]+)`")
_WORD = re.compile(r"(?<![\w.])[a-z][a-z0-9_]*")

ONLY = "answer"
"""The name of the one part of a question whose parts have no names."""


@dataclass(frozen=True, slots=True)
class Proven:
    """A question block that was read and proven.

    The question is None where an error stands in it, or where the shelf has no material for it; the proof is None
    where the block could not be read to its end. Problems are in lines of the block, whose `:::` line is line 1.
    """

    question: Question | None
    proof: Proof | None
    problems: tuple[Diagnostic, ...]


def read_question(source: Source, id: str, shelf: Shelf) -> Proven:
    """Read and prove the block that `source` holds, its `:::` line first, the line that closes it left out."""
    notes = Notes(source)
    pieces, problems = outline(source, QUESTION, 1)
    notes.problems += problems
    got = gather(notes, pieces)
    question = _Reader(notes, id, shelf, got).read()
    if notes.failed or any(problem.code == "G10" for problem in notes.problems):
        return Proven(None, None, tuple(notes.problems))
    found, proof = proven(notes, question, _places(got))
    return Proven(found, proof, tuple(notes.problems))


def _places(got: Gathered) -> Places:
    numbers = [draft for draft in got.drafts if draft.answer is not None]
    return Places(
        first=got.first.spot,
        answers={draft.name: _formula_spot(draft.answer) for draft in numbers if draft.answer},
        slips=tuple(_formula_spot(label) for draft in numbers for label in draft.slips),
        last_where=got.where[-1].spot if got.where else None,
    )


def _formula_spot(label: Label) -> Spot:
    spans, _stray = code_spans(label.body)
    return spans[0].inner.spot() if spans else label.spot


@dataclass(slots=True)
class _Reader:
    notes: Notes
    id: str
    shelf: Shelf
    got: Gathered
    names: Names = field(default_factory=Names)

    def read(self) -> Question:
        givens: tuple[Given, ...] = ()
        self.names.broken |= self.got.torn
        if self.got.givens:
            givens = read_givens(self.notes, self.got.givens, self.shelf, self.names)
        self.name_parts(givens)
        where = [text for label in self.got.where if (text := read_where(self.notes, label.body, self.names))]
        parts = self.parts()
        prompt = self.prompt()
        question = Question(
            id=self.id,
            topic=self.word(self.got.topic, "Topic"),
            prompt=prompt,
            parts=parts,
            givens=givens,
            where=tuple(where),
            critical=self.yes(self.got.critical),
            use=self.use(),
            working=self.working(self.got.workings),
            sources=tuple(_source(label) for label in self.got.sources),
        )
        self.check_prompt(question)
        self.check_unused(givens)
        return with_turned(question)

    def name_parts(self, givens: tuple[Given, ...]) -> None:
        taken = {given.name for given in givens} | self.names.broken
        for draft in self.got.drafts:
            place = (draft.ask or draft.answer or self.got.first).spot
            fault = name_fault(draft.name)
            if fault:
                self.notes.tell("G09", place, fault, _("choose another name"))
            elif draft.name in taken:
                what = _("'{name}' is a given already").format(name=draft.name)
                self.notes.tell("G09", place, what, _("choose another name for the part"))
            self.names.parts.add(draft.name)

    def parts(self) -> tuple[Part, ...]:
        """Every part; formulas of later parts may use the earlier ones, texts only what is shown by then."""
        asked: dict[str, Asked] = {}
        options: dict[str, Choice] = {}
        for draft in self.got.drafts:
            if draft.options is not None:
                options[draft.name] = self.choice(draft, draft.options)
            elif draft.answer is not None:
                found = read_answer(self.notes, draft, self.names)
                if found is not None:
                    asked[draft.name] = found
        parts: list[Part] = []
        for draft in self.got.drafts:
            part: Part
            if draft.name in options:
                part = options[draft.name]
            elif draft.name in asked:
                part = numeric(self.notes, draft, self.names, asked[draft.name])
            else:
                check_slips(self.notes, draft, self.names)
                self.texts(draft)
                continue
            parts.append(self.dressed(part, draft))
        return (*parts, *self.single())

    def choice(self, draft: Draft, chunk: Chunk) -> Choice:
        return Choice(draft.name, (), read_options(self.notes, chunk, self.names, dict(self.names.kinds)))

    def single(self) -> tuple[Part, ...]:
        """The one part of a choice, an order or a match."""
        if self.got.options is not None:
            options = read_options(self.notes, self.got.options, self.names, dict(self.names.kinds))
            return (Choice(ONLY, (), options),)
        if self.got.items is not None:
            return (Order(ONLY, read_order(self.notes, self.got.items, self.names)),)
        if self.got.pairs is not None:
            return (Match(ONLY, read_pairs(self.notes, self.got.pairs, self.names)),)
        return ()

    def texts(self, draft: Draft) -> tuple[Nodes, Nodes, bool]:
        """The question, the working and the weight of a part."""
        ask: list[Node] = []
        if draft.ask is not None:
            ask += block_nodes(draft.ask.body, shower(self.notes, self.names, after=False))
            if not draft.ask.body.text:
                self.notes.tell(
                    "Q03", draft.ask.spot, _("this part asks nothing"), _("write the question behind 'Ask:'")
                )
        for label in draft.figures:
            figure = read_figure(self.notes, label.body, self.names)
            ask += [figure] if figure else []
        return tuple(ask), self.working(draft.workings), self.yes(draft.critical)

    def dressed(self, part: Part, draft: Draft) -> Part:
        ask, working, critical = self.texts(draft)
        if isinstance(part, Numeric | Choice):
            return replace(part, ask=ask, working=working, critical=critical)
        return part

    def prompt(self) -> Nodes:
        show = shower(self.notes, self.names, after=False)
        found: list[Node] = []
        for piece in self.got.prompt:
            if isinstance(piece, Chunk):
                found += piece.nodes(show)
            else:
                figure = read_figure(self.notes, piece.body, self.names)
                found += [figure] if figure else []
        return tuple(found)

    def working(self, labels: list[Label]) -> Nodes:
        show = shower(self.notes, self.names, after=True)
        return tuple(node for label in labels for node in block_nodes(label.body, show))

    def word(self, label: Label | None, word: str) -> str:
        if label is None:
            self.notes.tell(
                "Q01", self.got.first.spot, _("this question has no '{word}:'").format(word=word), _("add it")
            )
            return ""
        text = label.body.text
        if not text or not _is_id(text):
            self.notes.tell(
                "Q02",
                label.body if text else label.spot,
                _("a topic is one word of small letters, digits and dashes"),
                _("write it as in [check.topics] of module.toml"),
            )
        return text

    def yes(self, label: Label | None) -> bool:
        if label is None:
            return False
        if label.body.text not in ("yes", "no"):
            place = label.body if label.body.text else label.spot
            self.notes.tell("Q11", place, _("'Critical:' is yes or no"), _("write 'Critical: yes', or delete the line"))
        return label.body.text == "yes"

    def use(self) -> str:
        label = self.got.use
        if label is None:
            return ""
        if label.body.text not in ("practice", "check"):
            place = label.body if label.body.text else label.spot
            self.notes.tell("Q12", place, _("'Use:' is practice or check"), _("without the line it is used for both"))
        return label.body.text

    def check_prompt(self, question: Question) -> None:
        asks = [part.ask for part in question.parts if isinstance(part, Numeric | Choice)]
        if not plain(question.prompt) and not any(plain(ask) for ask in asks):
            self.notes.tell(
                "Q03", self.got.first.spot, _("this question asks nothing"), _("write the question above its answer")
            )

    def check_unused(self, givens: tuple[Given, ...]) -> None:
        table = self.got.givens
        if table is None or self.notes.failed:
            return
        draws = " ".join(row[1].text for row in table.rows if row[1].text.lstrip("`").startswith("="))
        spans = " ".join(_CODE.findall("\n".join(self.notes.source.lines)))
        used = set(_WORD.findall(f"{draws} {spans}"))
        for row in table.rows:
            name = row[0].text.strip("` ")
            if name not in used and any(given.name == name for given in givens):
                self.notes.tell(
                    "G16", row[0], _("'{name}' is used nowhere").format(name=name), _("delete it, or use it")
                )


def _is_id(text: str) -> bool:
    return bool(re.fullmatch(r"[a-z][a-z0-9-]*", text))


def _source(label: Label) -> Element:
    return Element("source", (), inline_nodes(label.body))
