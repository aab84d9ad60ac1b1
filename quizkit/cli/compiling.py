"""`quizkit compile`: lessons into a pack and pages, once or on every save."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from quizkit.cli.told import PROBLEMS, print_json, problem
from quizkit.words import _, ngettext

if TYPE_CHECKING:
    from quizkit.authoring.cache import Cache
    from quizkit.authoring.content import Compiled
    from quizkit.authoring.diagnostics import Diagnostic
    from quizkit.pack.model import Pack

FOLDER = click.Path(file_okay=False, path_type=Path)
CACHE = "cache"
"""Below the folder that is written to: compiled blocks, for the next time."""
SETTLE = 0.05
"""Seconds in which nothing may change before a save counts as done."""
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
    if watch and (as_json or report):
        raise click.UsageError(_("--watch says what changed; --json and --report go with a single compile"))
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


def _compiled(content: Path, into: Path, hold_out: bool, cache: Cache | None = None) -> Compiled:
    """Compile, and write pack and pages where there is a pack. Blocks that did not change are taken from the cache."""
    from quizkit.authoring.cache import Cache
    from quizkit.authoring.content import compile_folder
    from quizkit.pack.codec import to_json
    from quizkit.press.static import build

    compiled = compile_folder(content, cache or Cache(into / CACHE), hold_out=hold_out)
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
        click.echo(_("No pack was written."), err=True)
    elif report:
        for line in _report(compiled):
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


def _report(compiled: Compiled) -> Iterator[str]:
    """A line a question, in the order of the content, then the whole in numbers."""
    from quizkit.authoring.report import lines, report, totals

    reports = report(compiled)
    yield from lines(reports)
    found = totals(reports)
    yield ngettext(
        "{n} question: {points} points, {let} let through, {variants} variants proven, {out} left out",
        "{n} questions: {points} points, {let} let through, {variants} variants proven, {out} left out",
        found["questions"],
    ).format(
        n=found["questions"],
        points=f"{found['points']:,}",
        let=f"{found['let_through']:,}",
        variants=f"{found['variants']:,}",
        out=f"{found['left_out']:,}",
    )


def _figures(compiled: Compiled) -> list[dict[str, Any]]:
    """What the proof of each question found, for a program."""
    from quizkit.authoring.report import report

    return [
        {
            "question": one.id,
            "points": one.points,
            "let_through": one.let_through,
            "variants": one.variants,
            "left_out": dict(one.left_out),
            "nearest_slip": one.nearest,
            "slips": [
                {"part": slip.part, "formula": slip.formula, "nearest": slip.nearest, "takes_out": slip.takes_out}
                for slip in one.slips
            ],
            "carried": one.carried,
        }
        for one in report(compiled)
    ]


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
        made["report"] = _figures(compiled)
    return made


def _watch(content: Path, into: Path, hold_out: bool) -> None:
    """Compile on each save until it is stopped; say only what is new and what is mended."""
    from quizkit.authoring.cache import Cache

    cache = Cache(into / CACHE)
    known: Sequence[Diagnostic] = ()
    seen: dict[str, tuple[int, int]] = {}
    click.echo(_("Watching {folder}. Stop with Ctrl-C.").format(folder=content))
    try:
        while True:
            there = _stamps(content)
            if there != seen:
                seen = _settled(content, there)
                known = _again(content, into, hold_out, cache, known)
            time.sleep(POLL)
    except KeyboardInterrupt:
        click.echo("")


def _again(
    content: Path, into: Path, hold_out: bool, cache: Cache, known: Sequence[Diagnostic]
) -> Sequence[Diagnostic]:
    begun = time.perf_counter()
    compiled = _compiled(content, into, hold_out, cache)
    mended = _mended(content, known, compiled.problems)  # by the files as they were compiled, before the next save
    said = {str(one) for one in known}
    for words in (str(one) for one in compiled.problems):
        if words not in said:
            click.echo(words)
    if mended:
        click.echo(ngettext("{n} mended", "{n} mended", mended).format(n=mended))
    if compiled.pack is not None:
        click.echo(_summary(compiled.pack, time.perf_counter() - begun))
    return compiled.problems


def _mended(content: Path, before: Sequence[Diagnostic], now: Sequence[Diagnostic]) -> int:
    """How many mistakes are gone, not counting what has moved, or went with its file.

    Beside a new error a mistake whose line still stands as it was may only be hidden, and does not count either.
    """
    new = _kinds(one for one in now if one.severity == "error") - _kinds(before)
    gone = _kinds(one for one in before if not _stands(content, one, hidden=bool(new)))
    return ((_kinds(before) - _kinds(now)) & gone).total()


def _kinds(problems: Iterable[Diagnostic]) -> Counter[tuple[str, str]]:
    """How often each kind of mistake is made in each file, wherever it stands there."""
    return Counter((one.path, one.code) for one in problems)


def _stands(content: Path, one: Diagnostic, *, hidden: bool) -> bool:
    """Whether a mistake that is told no more cannot be said to be mended; `hidden` where a new error may hide it."""
    try:
        lines = (content / one.path).read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return True
    return hidden and one.source in lines


def _settled(folder: Path, there: dict[str, tuple[int, int]]) -> dict[str, tuple[int, int]]:
    """The files once nothing is being written: an editor's save may take a moment, and half of it makes no sense."""
    while True:
        time.sleep(SETTLE)
        now = _stamps(folder)
        if now == there:
            return now
        there = now


def _stamps(folder: Path) -> dict[str, tuple[int, int]]:
    found = {}
    for path in sorted(folder.rglob("*")):
        try:
            state = path.stat()
        except OSError:
            continue
        found[str(path)] = (state.st_mtime_ns, state.st_size)
    return found
