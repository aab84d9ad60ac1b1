"""`quizkit records`: verify the shop's file, copy it, put it back, mark again, and tell other systems."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import PROBLEMS, SHOP, at_the_machine, now, opened, print_json, problem, progress
from quizkit.words import _, ngettext

if TYPE_CHECKING:
    from quizkit.records import Verified
    from quizkit.shop import Affected

FILE = click.Path(dir_okay=False, path_type=Path)


@click.group("records")
def records_command() -> None:
    """The shop's file: prove it, copy it, put it back, mark again, and tell other systems."""


@contextmanager
def _told() -> Iterator[None]:
    from quizkit.records import RecordsError

    try:
        yield
    except RecordsError as error:
        problem(error.what, error.mend)


@records_command.command("verify")
@SHOP
@click.option("--head", default=None, help=_("A seal from a certificate, from heads.txt or from paper."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def verify_command(path: Path, head: str | None, as_json: bool) -> None:
    """Look at every row and its seal, and name the first that is not what was written.

    Without a head a sound file is consistent: its last rows may be missing, or all of it sealed anew. With a head,
    nothing before that head was changed or lost.
    """
    from quizkit.records import heads_path, read_heads, verify_file

    with _told(), progress(_("verifying")) as tick:
        heads, wrong = read_heads(heads_path(path))
        verified = verify_file(
            path, head, heads=[one.head for one in heads], progress=lambda done, all: tick(done / all)
        )
    if as_json:
        print_json(_plain(verified) | {"heads": len(heads), "problems": list(wrong)})
    else:
        for line in wrong:
            click.echo(line, err=True)
        _say(verified, head)
    if not verified.sound or wrong:
        raise SystemExit(PROBLEMS)


def _plain(verified: Verified) -> dict[str, object]:
    return {
        "sound": verified.sound,
        "proven": verified.proven,
        "rows": verified.rows,
        "head": verified.head.seal,
        "broken": verified.broken.words() if verified.broken else None,
    }


def _say(verified: Verified, head: str | None) -> None:
    if verified.broken is not None:
        click.echo(_("Broken: {where}").format(where=verified.broken.words()), err=True)
        return
    rows = ngettext("{n} row holds.", "{n} rows hold.", verified.rows).format(n=verified.rows)
    if verified.proven:
        click.echo(rows + " " + _("A head from before is among them: nothing before it was changed or lost."))
    else:
        click.echo(rows + " " + _("The file is consistent; only a head from outside proves that nothing is missing."))
    click.echo(_("Head: {seal}").format(seal=verified.head.seal))


@records_command.command("backup")
@SHOP
@click.argument("into", type=FILE)
@click.option("--key-into", type=FILE, help=_("Write the shop's key there too: keep it apart from the copy."))
def backup_command(path: Path, into: Path, key_into: Path | None) -> None:
    """Copy the file while people work, and verify the copy."""
    from quizkit.records import backup

    with opened(path) as shop, _told():
        copied = backup(shop.records, into, key_into=key_into)
    click.echo(_("Copied to {path}; {rows} rows hold.").format(path=copied.path, rows=copied.verified.rows))
    if copied.key is None:
        click.echo(
            _(
                "THE KEY IS NOT IN THE COPY. Without it a restored shop cannot sign as itself. "
                "Write it once with --key-into, and keep it apart."
            ),
            err=True,
        )


@records_command.command("restore")
@click.argument("copy", type=FILE)
@SHOP
@click.option(
    "--head", required=True, help=_("A seal that the copy must hold: from a certificate, heads.txt or paper.")
)
def restore_command(copy: Path, path: Path, head: str) -> None:
    """Put a copy back as the shop's file, if it proves itself against a head. Nothing is ever written over."""
    from quizkit.records import key_path, restore

    with _told():
        copied = restore(copy, path, head)
    click.echo(_("Restored to {path}; {rows} rows hold.").format(path=copied.path, rows=copied.verified.rows))
    if copied.key is None:
        click.echo(
            _("THE KEY IS MISSING. Put the exported key at {path}, or nothing can be signed.").format(
                path=key_path(path)
            ),
            err=True,
        )


@records_command.command("remark")
@SHOP
@click.option("--question", help=_("Apply the question of --with to what was answered."))
@click.option("--with", "content", type=click.Path(file_okay=False, path_type=Path), help=_("The corrected content."))
@click.option("--by", type=int, help=_("The trainer who does it: a person's number."))
@click.option("--sign", default="", help=_("Let it lower standings too, for this reason."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def remark_command(
    path: Path, question: str | None, content: Path | None, by: int | None, sign: str, as_json: bool
) -> None:
    """Work out every recorded answer again, from the packs of their day: nothing may differ.

    With --question and --with, apply a corrected question to the numbers that were given, and tell who is affected.
    """
    from quizkit import shop as deeds

    if (question is None) != (content is None) or (question is not None and by is None):
        raise click.UsageError(_("--question, --with and --by belong together"))
    if content is not None:
        assert question is not None and by is not None
        _correct(path, question, content, by, sign, as_json)
        return
    with opened(path) as shop:
        report = deeds.remark(shop, now=now())
    if as_json:
        print_json({"checked": report.checked, "differences": [asdict(one) for one in report.differences]})
    else:
        click.echo(ngettext("{n} row marked again.", "{n} rows marked again.", report.checked).format(n=report.checked))
        for one in report.differences:
            click.echo(str(one))
        click.echo(
            ngettext("{n} difference", "{n} differences", len(report.differences)).format(n=len(report.differences))
        )
    if report.differences:
        raise SystemExit(PROBLEMS)


def _correct(path: Path, question: str, content: Path, by: int, sign: str, as_json: bool) -> None:
    """Apply a corrected question, and tell who is affected."""
    from quizkit import shop as deeds
    from quizkit.cli.compiling import pack_of_folder

    pack = pack_of_folder(content)
    with opened(path) as shop:
        done = deeds.remark_question(shop, by, question, pack, now=now(), sign=sign)
    if as_json:
        print_json({"checked": done.checked, "affected": [asdict(one) for one in done.affected]})
        return
    told = ngettext("asked in {n} check handed in", "asked in {n} checks handed in", done.checked)
    click.echo(f"{question}: {told.format(n=done.checked)}")
    for one in done.affected:
        click.echo(_affected(one))
    if not done.affected:
        click.echo(_("Nobody is affected."))


def _affected(one: Affected) -> str:
    where = _("{name}, check {form}, question {item}").format(name=one.name, form=one.form, item=one.item)
    if one.unmatched:
        return _("{where}: the corrected question never gives these numbers; nothing was changed").format(where=where)
    told = _("{where}: {before} is now {after}").format(where=where, before=one.before, after=one.after)
    if one.passed_after and not one.passed_before:
        told += "; " + _("passed now")
    if one.lowers:
        told += "; " + (_("not passed now, signed") if one.applied else _("would not pass: sign it with --sign REASON"))
    return told


@records_command.command("everything")
@SHOP
@click.argument("into", type=click.Path(dir_okay=False, path_type=Path))
def everything_command(path: Path, into: Path) -> None:
    """Write all people and all evidence as CSV, a file a table, into one zip. Names and notes are in it."""
    from quizkit import shop as deeds
    from quizkit.exchange.everything import write_zip

    part = into.with_name(f"{into.name}.part")
    with opened(path) as shop:
        tables = deeds.everything(shop, at_the_machine(shop), now=now())
        try:
            with part.open("wb") as out:
                write_zip(tables, out)
            part.replace(into)
        except OSError as error:
            part.unlink(missing_ok=True)
            problem(_("{file} cannot be written: {why}").format(file=into, why=error.strerror), _("name another file"))
    click.echo(_("Written to {file}").format(file=into))


@records_command.command("statements")
@SHOP
@click.option("--person", type=int, help=_("Only of this person, by number."))
def statements_command(path: Path, person: int | None) -> None:
    """Tell other systems: one xAPI 1.0.3 statement a row of evidence, as a JSON array. No names of people."""
    from quizkit import shop as deeds
    from quizkit.exchange.xapi import NoAddress, statements

    with opened(path) as shop:
        rows, address = deeds.statements(shop, now=now(), person=person), deeds.settings(shop).address
    try:
        made = statements(rows, address)
    except NoAddress as error:
        problem(str(error))
    click.echo("[")
    between = ""
    for one in made:
        click.echo(between + json.dumps(one, ensure_ascii=False), nl=False)
        between = ",\n"
    click.echo("\n]")
