"""A lesson file into a lesson and its questions; each block is read by itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from quizkit.authoring.blocks import Block
from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.labels import LESSON, outline
from quizkit.authoring.notes import Notes
from quizkit.authoring.proof import Proof
from quizkit.authoring.prose import Link, links_in, read_prose, relinked, split_title
from quizkit.authoring.question import read_question
from quizkit.authoring.source import Source
from quizkit.pack.model import Lesson, Nodes, Question
from quizkit.pack.nodes import Element, Node, plain
from quizkit.pack.shelf import Shelf
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class ReadQuestion:
    """A question block that was read: its full id and line, and the question, None where it is held out.

    `problems` are in places of the file.
    """

    id: str
    line: int
    question: Question | None
    problems: tuple[Diagnostic, ...]
    proof: Proof | None = None


@dataclass(frozen=True, slots=True)
class ReadLesson:
    """A lesson file that was read. `problems` are those outside its questions."""

    lesson: Lesson
    questions: tuple[ReadQuestion, ...]
    problems: tuple[Diagnostic, ...]
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """What came of one block, with places counted from its first line: nodes, or a question.

    `links` are as typed, to be held against the folder; in nodes and question they are addresses among pages.
    """

    nodes: Nodes = ()
    question: Question | None = None
    problems: tuple[Diagnostic, ...] = ()
    proof: Proof | None = None
    links: tuple[Link, ...] = ()


Compile = Callable[[Block], Piece]
"""Compiles a block, or knows what came of it before."""


def read_lesson(
    source: Source, module: str, parts: tuple[tuple[Block, ...], tuple[Diagnostic, ...]], compile_block: Compile
) -> ReadLesson:
    """Read a lesson of a module, each block by `compile_block`; `parts` are what `split` makes of the source."""
    blocks, problems = parts
    return assemble(source, module, problems, [(block, compile_block(block)) for block in blocks])


def read_block(module: str, block: Block, shelf: Shelf) -> Piece:
    """Read one block alone. A question without an id, or never closed, is not read: its line is told already."""
    if block.kind == "question":
        if not block.whole or not block.id:
            return Piece()
        read = read_question(Source("", block.lines), f"{module}/{block.id}", shelf)
        question = read.question
        links: tuple[Link, ...] = ()
        if question is not None:
            links = links_in(question.prompt)
            question = replace(question, prompt=relinked(question.prompt))
        return Piece((), question, read.problems, read.proof, links)
    if not block.whole:
        return Piece()
    notes = Notes(Source("", block.lines))
    if block.kind == "sheet":
        notes.tell("K06", Spot(1, 1, len(block.lines[0])), _("a sheet stands in signoff.md"), _("move it there"))
        return Piece(problems=tuple(notes.problems))
    start = 0 if block.kind == "text" else 1
    pieces, told = outline(notes.source, LESSON, start)
    notes.problems += told
    nodes: tuple[Node, ...] = read_prose(notes, pieces)
    if block.kind == "caution":
        if not plain(nodes):
            notes.tell("K07", Spot(1, 1, len(block.lines[0])), _("this caution says nothing"), _("say what hurts"))
        nodes = (Element("caution", (), nodes),)
    return Piece(relinked(nodes), None, tuple(notes.problems), None, links_in(nodes))


def assemble(
    source: Source, module: str, problems: tuple[Diagnostic, ...], pieces: list[tuple[Block, Piece]]
) -> ReadLesson:
    """Put what came of the blocks of a file together, in places of the file."""
    body: list[Node] = []
    questions: list[ReadQuestion] = []
    told = list(problems)
    for block, piece in pieces:
        moved = tuple(problem.moved(source.path, block.line - 1) for problem in piece.problems)
        if block.kind != "question":
            body += piece.nodes
            told += moved
        elif block.id:
            full = f"{module}/{block.id}"
            questions.append(ReadQuestion(full, block.line, piece.question, moved, piece.proof))
            body.append(Element("question", (("id", full),)))
    title, rest = split_title(tuple(body))
    if title is None:
        spot = Spot(1, 1, max(1, len(source.lines[0])))
        if not any(line.strip() for line in source.lines):
            told.append(source.problem("F07", spot, _("this file is empty"), _("write a lesson, or delete the file")))
        else:
            told.append(source.problem("K03", spot, _("this lesson has no title"), _("begin it with '# Title'")))
    stem = source.path.rsplit("/", 1)[-1].removesuffix(".md")
    lesson = Lesson(f"{module}/{stem}", plain(title.children) if title else stem, rest)
    links = tuple(link for _block, piece in pieces for link in piece.links)
    return ReadLesson(lesson, tuple(questions), tuple(told), links)
