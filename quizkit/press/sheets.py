"""Sheets on paper: for a bench where no tablet belongs. What is written on one is typed in later, with its photo."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quizkit.pack.html import render
from quizkit.pack.model import Module, Pack, Sheet
from quizkit.pack.nodes import plain
from quizkit.pack.sheets import judge_sheet, judge_words
from quizkit.pack.shown import lesson_figure
from quizkit.pages import page
from quizkit.press.static import look, write_page, write_style


@dataclass(frozen=True, slots=True)
class Pressed:
    """The pages that were written, by their paths."""

    paths: tuple[Path, ...]


def press_sheets(pack: Pack, folder: Path) -> Pressed:
    """Write a page for the sheet of each module that has one, ready to print."""
    write_style(folder)
    sheets = [(module, module.sheet) for module in pack.modules if module.sheet is not None]
    return Pressed(tuple(press_sheet(pack, module, sheet, folder) for module, sheet in sheets))


def press_sheet(pack: Pack, module: Module, sheet: Sheet, folder: Path) -> Path:
    """Write the page of one sheet."""
    write_style(folder)
    path = folder / f"sheet-{module.id}.html"
    write_page(path, sheet_page(pack, module, sheet))
    return path


def sheet_page(pack: Pack, module: Module, sheet: Sheet) -> str:
    """One sheet with boxes to tick and lines to write on."""
    return page("paper_sheet.html", pack.scheme.language, look=look(pack, ""), **sheet_values(pack, module, sheet))


def sheet_values(pack: Pack, module: Module, sheet: Sheet) -> dict[str, Any]:
    """What the page of a sheet shows, for whoever puts a frame around it."""
    limits = {one.name: one.limits for one in judge_sheet(sheet, {}, None, pack.style).judges}
    return {
        "sheet": sheet,
        "title": module.scheme.title,
        "purpose": render(sheet.body, lesson_figure),
        "materials": sheet.materials,
        "steps": [(render(step.text, lesson_figure), step.critical) for step in sheet.steps],
        "measures": [(render(one.what, lesson_figure), one.unit) for one in sheet.measures],
        "judges": [(judge_words(one.name), limits[one.name], plain(one.feedback)) for one in sheet.judges],
    }
