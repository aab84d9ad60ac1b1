"""`quizkit cut`: where judges would draw the line in a module's check."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import print_json, problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.pack.model import Module, Pack

FOLDER = click.Path(file_okay=False, path_type=Path)
CONTENT = click.option(
    "--content", type=FOLDER, default=Path("content"), show_default=True, help=_("The content folder.")
)


@click.command("cut")
@click.argument("module")
@CONTENT
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def cut_command(module: str, content: Path, as_json: bool) -> None:
    """The pass mark by judges (modified Angoff), from judges.csv beside the module's lessons.

    Each judge says for each question the chance that someone who only just should pass gets it right.
    """
    from quizkit.cli.compiling import pack_of_folder
    from quizkit.quiz.statistics import StatisticsError, angoff

    found = module_of(pack_of_folder(content), module)
    if not found.ratings:
        problem(
            _("{module} has no judges.csv").format(module=found.id),
            _("put one beside its lessons: a question a row, a column a judge, chances from 0 to 1"),
        )
    chances = {one.judge: [float(chance) for _question, chance in one.chances] for one in found.ratings}
    try:
        cut = angoff(chances)
    except StatisticsError as error:
        problem(str(error))
    questions = len(found.ratings[0].chances)
    share = cut.marks / questions
    if as_json:
        made = {"cut": cut.marks, "of": questions, "share": share, "standard_error": cut.error}
        print_json(made | {"judges": dict(cut.judges)})
        return
    for judge, marks in cut.judges:
        click.echo(f"  {judge}: {marks:.2f}")
    told = _("cut {cut} of {of} ({share}), standard error {error}")
    click.echo(told.format(cut=f"{cut.marks:.2f}", of=questions, share=f"{share:.0%}", error=f"{cut.error:.2f}"))
    now = f"{float(found.scheme.check.pass_mark):.0%}"
    click.echo(_("The module's pass mark is {now}; change it in module.toml.").format(now=now))


def module_of(pack: Pack, name: str) -> Module:
    """The module of that name; wrong use, with the nearest one, where there is none."""
    from difflib import get_close_matches

    known = {module.id: module for module in pack.modules}
    if name in known:
        return known[name]
    near = get_close_matches(name, known, 1)
    mend = _("did you mean '{near}'?").format(near=near[0]) if near else ", ".join(known)
    raise click.UsageError(_("there is no module '{name}'; {mend}").format(name=name, mend=mend))
