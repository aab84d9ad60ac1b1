"""`quizkit try`: one question at the terminal, as a trainee meets it and then as its author checks it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import PROBLEMS, lines
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.authoring.content import Compiled
    from quizkit.pack.model import Pack, Question
    from quizkit.pack.variant import Graded, Variant

FOLDER = click.Path(file_okay=False, path_type=Path)


@click.command("try")
@click.argument("question")
@click.option("--content", type=FOLDER, default=Path("content"), show_default=True, help=_("The content folder."))
@click.option("--variant", type=int, help=_("The number of a variant; else one by chance."))
def try_command(question: str, content: Path, variant: int | None) -> None:
    """Ask one question as a trainee sees it, then show its author key, slips and working."""
    from quizkit.authoring.content import compile_folder

    compiled = compile_folder(content, hold_out=True)
    if compiled.pack is None:
        for one in compiled.problems:
            click.echo(str(one), err=True)
        raise SystemExit(PROBLEMS)
    _tell_held_out(compiled, question)
    found = _question(compiled.pack, question)
    shown = _variant(compiled.pack, found, variant)
    _ask(shown)
    typed = {
        part.name: click.prompt(_prompt(part.name, part.unit, part.hint), default="", show_default=False)
        for part in shown.parts
    }
    _tell(compiled.pack, shown, shown.grade(typed))


def _tell_held_out(compiled: Compiled, name: str) -> None:
    """Where the question is written and an error keeps it out of the pack, end with what is wrong."""
    assert compiled.pack is not None
    asked = [read for read in compiled.questions if read.id == name or read.id.endswith(f"/{name}")]
    standing = {question.id for question in compiled.pack.questions()}
    if not asked or any(read.id in standing for read in asked):
        return
    own = [problem for read in asked for problem in read.problems]
    for one in own or compiled.problems:
        click.echo(str(one), err=True)
    click.echo(_("'{name}' cannot be asked before this is mended").format(name=asked[0].id), err=True)
    raise SystemExit(PROBLEMS)


def _question(pack: Pack, name: str) -> Question:
    from difflib import get_close_matches

    known = {question.id: question for question in pack.questions()}
    if name in known:
        return known[name]
    ends = [id for id in known if id.endswith(f"/{name}")]
    if len(ends) == 1:
        return known[ends[0]]
    near = get_close_matches(name, known, 1)
    mend = _("did you mean '{near}'?").format(near=near[0]) if near else _("'quizkit compile --report' lists them all")
    raise click.UsageError(_("there is no question '{name}'; {mend}").format(name=name, mend=mend))


def _variant(pack: Pack, question: Question, number: int | None) -> Variant:
    """A variant as trainees meet it: what is listed stands mixed, since as written it is the key."""
    import random

    from quizkit.pack.variant import NoSuchVariant
    from quizkit.shop.asking import arrangement

    numbers = question.numbers
    chosen = numbers[random.randrange(len(numbers))] if number is None else number
    try:
        return question.variant(chosen, arrangement(question, "try", question.id, chosen), pack.style)
    except NoSuchVariant:
        last = numbers[len(numbers) - 1]
        what = _("{question} has no variant {number}; they run from {first} to {last}, holes apart")
        raise click.UsageError(what.format(question=question.id, number=chosen, first=numbers[0], last=last)) from None


def _ask(shown: Variant) -> None:
    from quizkit.scoring.marks import LETTERS

    click.echo(_("{question}, variant {number}").format(question=shown.question.id, number=shown.number))
    for line in lines(shown.prompt):
        click.echo(line)
    for part in shown.parts:
        for line in lines(part.ask):
            click.echo(line)
        for at, option in enumerate(part.options, 1):
            click.echo(f"  {at}. {' '.join(lines(option))}")
        for letter, target in zip(LETTERS, part.targets, strict=False):
            click.echo(f"  {letter}. {' '.join(lines(target))}")


def _prompt(name: str, unit: str, hint: str) -> str:
    told = ", ".join(word for word in (unit, hint) if word)
    return f"{name} ({told})" if told else name


def _tell(pack: Pack, shown: Variant, graded: Graded) -> None:
    from quizkit.press.static import foreseen

    for name, verdict in graded.parts.items():
        click.echo("")
        click.echo(f"{name}: {verdict.outcome}{f' ({verdict.note})' if verdict.note else ''}")
        for line in [verdict.why, *lines(verdict.feedback)]:
            if line:
                click.echo(f"  {line}")
        click.echo("  " + _("right: {value}").format(value=verdict.right))
        part = shown.question.part(name)
        for at, wrong in enumerate(foreseen(shown, part, pack) if part else (), 1):
            value = wrong.value or _("no value here")
            told = _("slip {at}: {value}") if wrong.formula else _("option {value}")
            words = [told.format(at=at, value=value), wrong.formula, *lines(wrong.words)]
            click.echo("  " + "  ".join(word for word in words if word))
    click.echo("")
    for line in lines(graded.working):
        click.echo(line)
    click.echo(_("{marks} of {out_of} marks").format(marks=graded.marks, out_of=graded.out_of))
