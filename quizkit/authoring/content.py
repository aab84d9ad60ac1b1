"""A content folder into a pack: read everything, check everything, prove every question, tell it all at once."""

from __future__ import annotations

import gc
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from quizkit.authoring.blocks import Block, split
from quizkit.authoring.cache import Cache
from quizkit.authoring.checks import CHECKS
from quizkit.authoring.diagnostics import Diagnostic, Spot, has_errors, in_order
from quizkit.authoring.files import (
    MODULE,
    RATINGS,
    SHEET,
    SHELF,
    SHOP,
    ContentRead,
    ModuleFiles,
    ModuleRead,
    find_modules,
)
from quizkit.authoring.images import check_links
from quizkit.authoring.lesson import Piece, ReadLesson, ReadQuestion, read_block, read_lesson
from quizkit.authoring.ratings import read_ratings
from quizkit.authoring.settings import module_settings, shop_settings
from quizkit.authoring.sheet import read_sheet
from quizkit.authoring.shelf import read_shelf
from quizkit.authoring.source import Source
from quizkit.authoring.spread import processors, spread
from quizkit.pack.codec import remember, text_of
from quizkit.pack.model import Image, Lesson, Module, Pack, Question
from quizkit.pack.nodes import Element
from quizkit.words import _

MUCH = 400
"""With fewer blocks to compile, more processes would take longer to start than they save."""

OF_THE_SHELF = frozenset({"G07", "G10", "G11", "J04", "M11", "M15", "Q23"})
"""What an error in the shelf can bring about elsewhere: not told while the shelf has one, since it may be no fault."""


class ContentError(Exception):
    """Content that cannot be published: `problems` holds every diagnostic, warnings too, in order."""

    def __init__(self, problems: tuple[Diagnostic, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Compiled:
    """What came of a folder: the pack (None where an error stops it), every problem in order, and what was held out.

    `held_out` are the full ids of questions, and the paths of files, that an error keeps out of the pack.
    `questions` are all question blocks in order, with their proofs.
    """

    pack: Pack | None
    problems: tuple[Diagnostic, ...]
    held_out: tuple[str, ...] = ()
    questions: tuple[ReadQuestion, ...] = ()


def compile_content(folder: str | Path, cache: str | Path | None = None) -> Pack:
    """The pack of a content folder. Raises ContentError with every diagnostic where an error stands in it.

    `cache` is a folder that keeps compiled blocks for the next time.
    """
    compiled = compile_folder(Path(folder), Cache(Path(cache)) if cache is not None else None)
    if compiled.pack is None:
        raise ContentError(compiled.problems)
    return compiled.pack


def compile_folder(folder: Path, cache: Cache | None = None, *, hold_out: bool = False) -> Compiled:
    """Compile a content folder; with `hold_out` whatever has an error is left out and the rest is a pack."""
    cache = cache or Cache()
    with _much_is_kept():
        content = read_content(folder, cache)
    cache.tidy()
    problems = list(content.problems)
    for _name, check in CHECKS:
        problems += check(content)
    reads = tuple(read for module in content.modules for lesson in module.lessons for read in lesson.questions)
    problems += (problem for read in reads for problem in read.problems)
    told = _own_faults(in_order(problems))
    if has_errors(told) and not hold_out:
        return Compiled(None, told, questions=reads)
    bad = {problem.path for problem in told if problem.severity == "error"}
    if content.scheme is None or {SHOP, SHELF} & bad:
        return Compiled(None, told, tuple(sorted({SHOP, SHELF} & bad)), reads)
    pack, held_out = assemble(content, bad)
    return Compiled(pack, told, held_out, reads)


@contextmanager
def _much_is_kept() -> Iterator[None]:
    """No looking for garbage meanwhile: nearly everything that is made stays, and is looked through each time."""
    looked = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looked:
            gc.enable()


def _own_faults(problems: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """The problems without those that only follow from a shelf that could not be read whole."""
    if not has_errors(problem for problem in problems if problem.path == SHELF):
        return problems
    return tuple(problem for problem in problems if problem.code not in OF_THE_SHELF)


def read_content(folder: Path, cache: Cache) -> ContentRead:
    """Read every file of a content folder; faults are collected, none stops the reading of another."""
    content = ContentRead(folder)
    if not folder.is_dir():
        what = _("there is no folder '{folder}'").format(folder=folder.name)
        content.problems.append(Diagnostic(folder.name or ".", Spot(), "F08", what, _("check its name")))
        return content
    reader = _Reader(content, cache)
    content.shop = reader.source(SHOP)
    if content.shop is not None:
        content.scheme, told = shop_settings(content.shop)
        content.problems += told
    if (folder / SHELF).exists() or (folder / SHELF).is_symlink():
        reader.shelf()
    modules, told = find_modules(folder)
    content.problems += told
    if not modules:
        what = _("this folder has no modules")
        content.problems.append(Diagnostic(SHOP, Spot(), "M03", what, _("make a folder with a module.toml in it")))
    paths = frozenset(path for files in modules for path in files.lessons)
    reader.ahead(modules)
    content.modules = [reader.module(files, paths) for files in modules]
    return content


class _Reader:
    """Reads the files of a folder, each as far as it changed since the cache last saw it."""

    def __init__(self, content: ContentRead, cache: Cache) -> None:
        self.content = content
        self.cache = cache
        self.read: dict[str, tuple[Source | None, tuple[Diagnostic, ...]]] = {}

    def file(self, path: str) -> tuple[Source | None, tuple[Diagnostic, ...]]:
        """A file, read once."""
        if path not in self.read:
            self.read[path] = self.cache.source(self.content.folder, path)
        return self.read[path]

    def source(self, path: str) -> Source | None:
        source, told = self.file(path)
        self.content.problems += told
        return source

    def shelf(self) -> None:
        source = self.source(SHELF)
        if source is not None:
            self.content.shelf, told = self.cache.once("shelf", SHELF, (source,), lambda: read_shelf(source))
            self.content.problems += told

    def ahead(self, modules: tuple[ModuleFiles, ...]) -> None:
        """Where much is new, compile its blocks on all processors before the lessons are put together."""
        processes = processors()
        todo = self.unknown(modules) if processes > 1 else {}
        if len(todo) < MUCH:
            return
        keys, blocks = list(todo), list(todo.values())

        def work(place: int) -> tuple[Piece, bytes]:
            piece = read_block(*blocks[place], self.content.shelf)
            self.cache.store(keys[place], piece)
            return piece, text_of(piece.question) if piece.question is not None else b""

        found = spread(len(keys), work, processes)
        for key, (piece, text) in zip(keys, found, strict=True) if found is not None else ():
            self.cache.keep(key, piece)
            if piece.question is not None:
                remember(piece.question, text)

    def blocks(self, source: Source) -> tuple[tuple[Block, ...], tuple[Diagnostic, ...]]:
        return self.cache.once("blocks", source.path, (source,), lambda: split(source))

    def unknown(self, modules: tuple[ModuleFiles, ...]) -> dict[str, tuple[str, Block]]:
        """The blocks of all lessons that nothing is known of, by their keys, each with its module."""
        found: dict[str, tuple[str, Block]] = {}
        for files in modules:
            for path in files.lessons:
                source, _told = self.file(path)
                if source is None or self.cache.knows("lesson", path, (source, self.content.shelf)):
                    continue
                for block in self.blocks(source)[0]:
                    key = self.cache.key(block, files.id, self.content.shelf)
                    if key not in found and self.cache.found(key) is None:
                        found[key] = (files.id, block)
        return found

    def module(self, files: ModuleFiles, paths: frozenset[str]) -> ModuleRead:
        read = ModuleRead(files.id, has_sheet=files.has_sheet)
        read.toml = self.source(f"{files.id}/{MODULE}")
        if read.toml is not None:
            toml = read.toml
            read.scheme, told = self.cache.once("module", toml.path, (toml,), lambda: module_settings(toml))
            self.content.problems += told
        images: dict[str, Image] = {}
        for path in files.lessons:
            images.update({image.path: image for image in self.lesson(read, path, paths)})
        read.images = tuple(images[path] for path in sorted(images))
        if files.has_sheet:
            self.sheet(read)
        if files.has_ratings:
            self.ratings(read)
        return read

    def lesson(self, read: ModuleRead, path: str, paths: frozenset[str]) -> tuple[Image, ...]:
        source = self.source(path)
        if source is None:
            read.broken = True
            return ()
        shelf = self.content.shelf

        def piece(block: Block) -> Piece:
            return self.cache.block(path, block, read.id, shelf, lambda: read_block(read.id, block, shelf))

        def make() -> ReadLesson:
            self.cache.forget(path)
            return read_lesson(source, read.id, self.blocks(source), piece)

        lesson = self.cache.once("lesson", path, (source, shelf), make)
        read.lessons.append(lesson)
        read.sources[lesson.lesson.id] = source
        self.content.problems += lesson.problems
        if not lesson.links:
            return ()
        images, told = check_links(self.content.folder, source, lesson.links, paths)
        self.content.problems += told
        return images

    def sheet(self, read: ModuleRead) -> None:
        path = f"{read.id}/{SHEET}"
        source = self.source(path)
        if source is not None:
            shelf = self.content.shelf
            read.sheet, told = self.cache.once("sheet", path, (source, shelf), lambda: read_sheet(source, shelf))
            self.content.problems += told

    def ratings(self, read: ModuleRead) -> None:
        source = self.source(f"{read.id}/{RATINGS}")
        if source is not None:
            known = [question.id.split("/")[1] for lesson in read.lessons for question in lesson.questions]
            read.ratings, told = read_ratings(source, read.id, known)
            self.content.problems += told


def assemble(content: ContentRead, bad: set[str]) -> tuple[Pack, tuple[str, ...]]:
    """The pack of what has no error, and what was held out; `bad` are the files that have one."""
    assert content.scheme is not None
    held_out: list[str] = []
    modules: list[Module] = []
    for read in content.modules:
        if read.scheme is None or f"{read.id}/{MODULE}" in bad:
            held_out.append(f"{read.id}/{MODULE}")
            continue
        modules.append(_module(read, held_out))
    return Pack(content.scheme, content.shelf, _by_need(modules)), tuple(held_out)


def _module(read: ModuleRead, held_out: list[str]) -> Module:
    assert read.scheme is not None
    counts = Counter(question.id for lesson in read.lessons for question in lesson.questions)
    questions: list[Question] = []
    lessons: list[Lesson] = []
    for lesson in read.lessons:
        standing: set[str] = set()
        for one in lesson.questions:
            if counts[one.id] > 1 or any(problem.severity == "error" for problem in one.problems):
                held_out.append(one.id)
            elif one.question is not None:
                questions.append(one.question)
                standing.add(one.id)
        whole = len(standing) == len(lesson.questions)
        lessons.append(lesson.lesson if whole else _without_gaps(lesson.lesson, standing))
    if read.has_sheet and read.sheet is None:
        held_out.append(f"{read.id}/{SHEET}")
    return Module(read.id, read.scheme, tuple(lessons), tuple(questions), read.sheet, read.images, read.ratings)


def _without_gaps(lesson: Lesson, standing: set[str]) -> Lesson:
    """A lesson without the places of questions that are held out."""
    body = tuple(node for node in lesson.body if not _is_gone(node, standing))
    return Lesson(lesson.id, lesson.title, body)


def _is_gone(node: object, standing: set[str]) -> bool:
    return isinstance(node, Element) and node.tag == "question" and node.get("id") not in standing


def _by_need(modules: list[Module]) -> tuple[Module, ...]:
    """Modules after those that they need, else by their names."""
    waiting = {module.id: module for module in sorted(modules, key=lambda module: module.id)}
    order: list[Module] = []
    while waiting:
        skills = {module.scheme.skill for module in waiting.values()}
        ready = [id for id, module in waiting.items() if not set(module.scheme.needs) & skills]
        order += [waiting.pop(id) for id in ready or list(waiting)]
    return tuple(order)
