"""A content folder into a pack: read everything, check everything, prove every question, tell it all at once."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from pathlib import Path

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
    source_or_problem,
)
from quizkit.authoring.images import check_links
from quizkit.authoring.lesson import ReadLesson, read_lesson
from quizkit.authoring.prose import relinked
from quizkit.authoring.ratings import read_ratings
from quizkit.authoring.settings import module_settings, shop_settings
from quizkit.authoring.sheet import read_sheet
from quizkit.authoring.shelf import read_shelf
from quizkit.pack.model import Image, Lesson, Module, Nodes, Pack, Question
from quizkit.pack.nodes import Element
from quizkit.words import _


class ContentError(Exception):
    """Content that cannot be published: `problems` holds every diagnostic, warnings too, in order."""

    def __init__(self, problems: tuple[Diagnostic, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Compiled:
    """What came of a folder: the pack (None where an error stops it), every problem in order, and what was held out.

    `held_out` are the full ids of questions, and the paths of files, that an error keeps out of the pack.
    """

    pack: Pack | None
    problems: tuple[Diagnostic, ...]
    held_out: tuple[str, ...] = ()


def compile_content(folder: str | Path) -> Pack:
    """The pack of a content folder. Raises ContentError with every diagnostic where an error stands in it."""
    compiled = compile_folder(Path(folder))
    if compiled.pack is None:
        raise ContentError(compiled.problems)
    return compiled.pack


def compile_folder(folder: Path, *, hold_out: bool = False) -> Compiled:
    """Compile a content folder; with `hold_out` whatever has an error is left out and the rest is a pack."""
    content = read_content(folder)
    problems = list(content.problems)
    for _name, check in CHECKS:
        problems += check(content)
    for module in content.modules:
        for lesson in module.lessons:
            problems += (problem for read in lesson.questions for problem in read.problems)
    told = in_order(problems)
    if content.scheme is None or (has_errors(told) and not hold_out):
        return Compiled(None, told)
    pack, held_out = assemble(content)
    return Compiled(pack, told, held_out)


def read_content(folder: Path) -> ContentRead:
    """Read every file of a content folder; faults are collected, none stops the reading of another."""
    content = ContentRead(folder)
    if not folder.is_dir():
        what = _("there is no folder '{folder}'").format(folder=folder.name)
        content.problems.append(Diagnostic(folder.name or ".", Spot(), "F08", what, _("check its name")))
        return content
    content.shop = source_or_problem(folder, SHOP, content.problems)
    if content.shop is not None:
        content.scheme, told = shop_settings(content.shop)
        content.problems += told
    if (folder / SHELF).exists() or (folder / SHELF).is_symlink():
        source = source_or_problem(folder, SHELF, content.problems)
        if source is not None:
            content.shelf, told = read_shelf(source)
            content.problems += told
    modules, told = find_modules(folder)
    content.problems += told
    if not modules:
        what = _("this folder has no modules")
        content.problems.append(Diagnostic(SHOP, Spot(), "M03", what, _("make a folder with a module.toml in it")))
    paths = frozenset(path for files in modules for path in files.lessons)
    content.modules = [_read_module(content, files, paths) for files in modules]
    return content


def _read_module(content: ContentRead, files: ModuleFiles, paths: frozenset[str]) -> ModuleRead:
    read = ModuleRead(files.id, has_sheet=files.has_sheet)
    read.toml = source_or_problem(content.folder, f"{files.id}/{MODULE}", content.problems)
    if read.toml is not None:
        read.scheme, told = module_settings(read.toml)
        content.problems += told
    images: dict[str, Image] = {}
    for path in files.lessons:
        source = source_or_problem(content.folder, path, content.problems)
        if source is None:
            read.broken = True
            continue
        lesson = read_lesson(source, files.id, content.shelf)
        read.lessons.append(lesson)
        read.sources[lesson.lesson.id] = source
        content.problems += lesson.problems
        found, told = check_links(content.folder, source, _bodies(lesson), paths)
        content.problems += told
        images.update({image.path: image for image in found})
    read.images = tuple(images[path] for path in sorted(images))
    if files.has_sheet:
        source = source_or_problem(content.folder, f"{files.id}/{SHEET}", content.problems)
        if source is not None:
            read.sheet, told = read_sheet(source, content.shelf)
            content.problems += told
    if files.has_ratings:
        source = source_or_problem(content.folder, f"{files.id}/{RATINGS}", content.problems)
        if source is not None:
            known = [question.id.split("/")[1] for lesson in read.lessons for question in lesson.questions]
            read.ratings, told = read_ratings(source, files.id, known)
            content.problems += told
    return read


def _bodies(lesson: ReadLesson) -> list[Nodes]:
    questions = [read.question for read in lesson.questions if read.question is not None]
    return [lesson.lesson.body, *(question.prompt for question in questions)]


def assemble(content: ContentRead) -> tuple[Pack, tuple[str, ...]]:
    """The pack of what has no error, and what was held out."""
    assert content.scheme is not None
    held_out: list[str] = []
    modules: list[Module] = []
    for read in content.modules:
        if read.scheme is None:
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
                questions.append(_relinked(one.question))
                standing.add(one.id)
        body = tuple(node for node in lesson.lesson.body if not _is_gone(node, standing))
        lessons.append(Lesson(lesson.lesson.id, lesson.lesson.title, relinked(body)))
    if read.has_sheet and read.sheet is None:
        held_out.append(f"{read.id}/{SHEET}")
    return Module(read.id, read.scheme, tuple(lessons), tuple(questions), read.sheet, read.images, read.ratings)


def _is_gone(node: object, standing: set[str]) -> bool:
    return isinstance(node, Element) and node.tag == "question" and node.get("id") not in standing


def _relinked(question: Question) -> Question:
    return replace(question, prompt=relinked(question.prompt))


def _by_need(modules: list[Module]) -> tuple[Module, ...]:
    """Modules after those that they need, else by their names."""
    waiting = {module.id: module for module in sorted(modules, key=lambda module: module.id)}
    order: list[Module] = []
    while waiting:
        skills = {module.scheme.skill for module in waiting.values()}
        ready = [id for id, module in waiting.items() if not set(module.scheme.needs) & skills]
        order += [waiting.pop(id) for id in ready or list(waiting)]
    return tuple(order)
