"""`quizkit compile` and `quizkit try`: what an author uses while writing."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from quizkit.cli.told import PROBLEMS, lines, print_json, problem
from quizkit.words import _, ngettext

if TYPE_CHECKING:
    from quizkit.authoring.content import Compiled
    from quizkit.pack.model import Pack, Question
    from quizkit.pack.variant import Graded, Variant

FOLDER = click.Path(file_okay=False, path_type=Path)
POLL = 0.4
"""Seconds between two looks at the files."""


@click.command("compile")
@click.argument("content", type=FOLDER, default=Path("content"))
@click.option("--into", type=FOLDER, default=Path("build"), show_default=True, help=_("Where to write."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
@click.option("--report", is_flag=True, help=_("A line a question: variants, and what was left out."))
@click.option("--watch", is_flag=True, help=_("Go on, and compile again on each save."))
@click.option("--hold-out", is_flag=True, help=_("Leave out what has an error, and make a pack of the rest."))
def compile_command(content: Path, into: Path, as_json: bool, report: bool, watch: bool, hold_out: bool) -> None:
    """Compile lessons into a pack and a page a lesson, with every mistake told at once.

    Writes pack.json and the pages below the folder given with --into.
    """
    if watch:
        _watch(content, into, hold_out)
        return
    begun = time.perf_counter()
    compiled = _compiled(content, into, hold_out)
    if as_json:
        print_json(_plain(compiled, report))
    else:
        _say(compiled, report)
        if compiled.pack is not None:
            click.echo(_summary(compiled.pack, time.perf_counter() - begun))
            click.echo(_("Written to {folder}").format(folder=into))
    if _failed(compiled):
        raise SystemExit(PROBLEMS)


def _compiled(content: Path, into: Path, hold_out: bool) -> Compiled:
    """Compile, and write pack and pages where there is a pack."""
    from quizkit.authoring.content import compile_folder
    from quizkit.pack.codec import to_json
    from quizkit.press.static import build

    compiled = compile_folder(content, hold_out=hold_out)
    if compiled.pack is not None:
        try:
            build(compiled.pack, into)
            (into / "pack.json").write_bytes(to_json(compiled.pack))
        except OSError as error:
            where = error.filename or into
            problem(
                _("{file} cannot be written: {why}").format(file=where, why=error.strerror),
                _("make room, or name another folder with --into"),
            )
    return compiled


def pack_of_folder(content: Path) -> Pack:
    """The pack of a content folder, for a command that needs one; every mistake is told where there is none."""
    from quizkit.authoring.content import compile_folder

    compiled = compile_folder(content)
    if compiled.pack is None:
        _say(compiled, report=False)
        raise SystemExit(PROBLEMS)
    return compiled.pack


def _failed(compiled: Compiled) -> bool:
    return any(one.severity == "error" for one in compiled.problems)


def _say(compiled: Compiled, report: bool) -> None:
    for one in compiled.problems:
        click.echo(str(one), err=True)
    errors = sum(one.severity == "error" for one in compiled.problems)
    if errors:
        click.echo(ngettext("{n} error", "{n} errors", errors).format(n=errors), err=True)
    for name in compiled.held_out:
        click.echo(_("held out: {name}").format(name=name), err=True)
    if compiled.pack is None:
        click.echo(_("Nothing was written."), err=True)
    elif report:
        for line in _report(compiled.pack):
            click.echo(line)


def _summary(pack: Pack, seconds: float) -> str:
    questions = list(pack.questions())
    lessons = sum(len(module.lessons) for module in pack.modules)
    proven = sum(len(question.numbers) for question in questions)
    words = [
        ngettext("{n} module", "{n} modules", len(pack.modules)).format(n=len(pack.modules)),
        ngettext("{n} lesson", "{n} lessons", lessons).format(n=lessons),
        ngettext("{n} question", "{n} questions", len(questions)).format(n=len(questions)),
        ngettext("{n} variant proven", "{n} variants proven", proven).format(n=f"{proven:,}"),
    ]
    return _("{counts} in {seconds} s").format(counts=", ".join(words), seconds=f"{seconds:.1f}")


def _report(pack: Pack) -> Iterator[str]:
    """A line a question, in the order of the content."""
    width = max((len(question.id) for question in pack.questions()), default=0)
    for question in pack.questions():
        left_out = sum(count for _first, count in question.left_out)
        out = _("{n} left out").format(n=left_out) if left_out else ""
        critical = _("critical") if question.critical else ""
        told = "  ".join(word for word in (out, critical) if word)
        yield f"{question.id:<{width}}  {len(question.numbers):>8,}  {question.topic}  {told}".rstrip()


def _plain(compiled: Compiled, report: bool) -> dict[str, Any]:
    import json

    from quizkit.authoring.diagnostics import as_json
    from quizkit.pack.codec import sha256

    pack = compiled.pack
    made: dict[str, Any] = {"problems": json.loads(as_json(compiled.problems)), "held_out": list(compiled.held_out)}
    if pack is None:
        return made
    questions = list(pack.questions())
    made |= {
        "hash": sha256(pack),
        "modules": len(pack.modules),
        "lessons": sum(len(module.lessons) for module in pack.modules),
        "questions": len(questions),
        "variants": sum(len(question.numbers) for question in questions),
    }
    if report:
        made["report"] = [
            {
                "question": question.id,
                "topic": question.topic,
                "variants": len(question.numbers),
                "left_out": sum(count for _first, count in question.left_out),
            }
            for question in questions
        ]
    return made


def _watch(content: Path, into: Path, hold_out: bool) -> None:
    """Compile on each save until it is stopped; say only what is new and what is mended."""
    known: frozenset[str] = frozenset()
    seen: dict[str, tuple[int, int]] = {}
    click.echo(_("Watching {folder}. Stop with Ctrl-C.").format(folder=content))
    try:
        while True:
            there = _stamps(content)
            if there != seen:
                seen = there
                known = _again(content, into, hold_out, known)
            time.sleep(POLL)
    except KeyboardInterrupt:
        click.echo("")


def _again(content: Path, into: Path, hold_out: bool, known: frozenset[str]) -> frozenset[str]:
    begun = time.perf_counter()
    compiled = _compiled(content, into, hold_out)
    told = [str(one) for one in compiled.problems]
    for one in told:
        if one not in known:
            click.echo(one)
    mended = len(known - set(told))
    if mended:
        click.echo(ngettext("{n} mended", "{n} mended", mended).format(n=mended))
    if compiled.pack is not None:
        click.echo(_summary(compiled.pack, time.perf_counter() - begun))
    return frozenset(told)


def _stamps(folder: Path) -> dict[str, tuple[int, int]]:
    found = {}
    for path in sorted(folder.rglob("*")):
        try:
            state = path.stat()
        except OSError:
            continue
        found[str(path)] = (state.st_mtime_ns, state.st_size)
    return found


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
    found = _question(compiled.pack, question)
    shown = _variant(compiled.pack, found, variant)
    _ask(shown)
    typed = {
        part.name: click.prompt(_prompt(part.name, part.unit, part.hint), default="", show_default=False)
        for part in shown.parts
    }
    _tell(shown, shown.grade(typed))


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
    import random

    from quizkit.pack.variant import NoSuchVariant

    numbers = question.numbers
    chosen = numbers[random.randrange(len(numbers))] if number is None else number
    try:
        return question.variant(chosen, style=pack.style)
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


def _tell(shown: Variant, graded: Graded) -> None:
    for name, verdict in graded.parts.items():
        click.echo("")
        click.echo(f"{name}: {verdict.outcome}{f' ({verdict.note})' if verdict.note else ''}")
        for line in [verdict.why, *lines(verdict.feedback)]:
            if line:
                click.echo(f"  {line}")
        click.echo("  " + _("right: {value}").format(value=verdict.right))
        for at, value in enumerate(shown.slip_values(name), 1):
            if value is not None:
                click.echo("  " + _("slip {at}: {value}").format(at=at, value=f"{float(value):.6g}"))
    click.echo("")
    for line in lines(graded.working):
        click.echo(line)
    click.echo(_("{marks} of {out_of} marks").format(marks=graded.marks, out_of=graded.out_of))
