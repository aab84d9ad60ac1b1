"""What lies in a content folder, and reading it whole before anything is put together."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.lesson import ReadLesson
from quizkit.authoring.source import Source
from quizkit.pack.model import Image, Rating, Sheet
from quizkit.pack.scheme import ModuleScheme, Scheme
from quizkit.pack.shelf import Shelf
from quizkit.words import _

SHOP, SHELF, MODULE, SHEET, RATINGS = "shop.toml", "shelf.md", "module.toml", "signoff.md", "judges.csv"
_LESSON = re.compile(r"(\d+)-[^/]*\.md")
_ID = re.compile(r"[a-z][a-z0-9-]*")


@dataclass(frozen=True, slots=True)
class ModuleFiles:
    """The files of one module, by their paths below the content folder."""

    id: str
    lessons: tuple[str, ...]
    has_sheet: bool
    has_ratings: bool


@dataclass(slots=True)
class ModuleRead:
    """Everything that was read of one module; None where a file has an error."""

    id: str
    toml: Source | None = None
    scheme: ModuleScheme | None = None
    lessons: list[ReadLesson] = field(default_factory=list)
    sources: dict[str, Source] = field(default_factory=dict)
    has_sheet: bool = False
    sheet: Sheet | None = None
    images: tuple[Image, ...] = ()
    ratings: tuple[Rating, ...] = ()
    broken: bool = False
    """Whether a lesson could not be read at all: what is missing from it is not told as missing."""


@dataclass(slots=True)
class ContentRead:
    """Everything that was read, for the checks that look across files."""

    folder: Path
    shop: Source | None = None
    scheme: Scheme | None = None
    shelf: Shelf = field(default_factory=Shelf)
    modules: list[ModuleRead] = field(default_factory=list)
    problems: list[Diagnostic] = field(default_factory=list)


def find_modules(folder: Path) -> tuple[tuple[ModuleFiles, ...], tuple[Diagnostic, ...]]:
    """The modules of a content folder in the order of their names, and what lies there in the wrong place."""
    problems: list[Diagnostic] = []
    modules: list[ModuleFiles] = []
    for path in sorted(folder.iterdir()):
        if path.name.startswith((".", "_")) or not path.is_dir():
            continue
        names = sorted(entry.name for entry in path.iterdir() if not entry.name.startswith("."))
        if not any(name == MODULE or name.endswith(".md") for name in names):
            continue
        if not _ID.fullmatch(path.name):
            problems.append(
                Diagnostic(
                    path.name,
                    Spot(),
                    "M01",
                    _("'{name}' cannot be the name of a module's folder").format(name=path.name),
                    _("use small letters, digits and dashes, beginning with a letter"),
                )
            )
            continue
        modules.append(_module_files(path.name, names, problems))
    return tuple(modules), tuple(problems)


def _module_files(id: str, names: list[str], problems: list[Diagnostic]) -> ModuleFiles:
    numbered = [(int(found[1]), name) for name in names if (found := _LESSON.fullmatch(name))]
    for name in names:
        if name.endswith(".md") and name != SHEET and not _LESSON.fullmatch(name):
            problems.append(
                Diagnostic(
                    f"{id}/{name}",
                    Spot(),
                    "M02",
                    _("this file is no lesson: its name has no number"),
                    _("name it like '3-{name}', or take it away").format(name=name),
                )
            )
    lessons = tuple(f"{id}/{name}" for _number, name in sorted(numbered))
    return ModuleFiles(id, lessons, SHEET in names, RATINGS in names)
