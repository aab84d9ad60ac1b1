"""`quizkit press`: pages to print, and lessons that need no server."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from quizkit.cli.told import problem
from quizkit.words import _, ngettext

FOLDER = click.Path(file_okay=False, path_type=Path)
CONTENT = click.argument("content", type=FOLDER, default=Path("content"))
INTO = click.option("--into", type=FOLDER, default=Path("build"), show_default=True, help=_("Where to write."))


@click.group("press")
def press_command() -> None:
    """Pages to print, and lessons that need no server."""


@press_command.command("lessons")
@CONTENT
@INTO
def lessons_command(content: Path, into: Path) -> None:
    """A page a lesson, and for the author a preview a question with its keys."""
    from quizkit.cli.compiling import pack_of_folder
    from quizkit.press.static import build

    with writing(into):
        built = build(pack_of_folder(content), into)
    counts = {"lessons": built.lessons, "previews": built.previews}
    click.echo(_("{lessons} lessons and {previews} previews").format(**counts))
    click.echo(_("Begin with {file}").format(file=into / "index.html"))


@press_command.command("sheets")
@CONTENT
@INTO
def sheets_command(content: Path, into: Path) -> None:
    """A page a sheet, to be filled in by hand where no tablet belongs, and typed in later."""
    from quizkit.cli.compiling import pack_of_folder
    from quizkit.press.sheets import press_sheets

    with writing(into):
        pressed = press_sheets(pack_of_folder(content), into)
    count = len(pressed.paths)
    click.echo(ngettext("{n} sheet to print:", "{n} sheets to print:", count).format(n=count))
    for path in pressed.paths:
        click.echo(f"  {path}")


@contextmanager
def writing(into: Path) -> Iterator[None]:
    """Say in words where a page cannot be written."""
    try:
        yield
    except OSError as error:
        problem(
            _("{file} cannot be written: {why}").format(file=error.filename or into, why=error.strerror),
            _("make room, or name another folder with --into"),
        )
