"""`quizkit records`: verify the shop's file, copy it, put it back, mark again, and tell other systems."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import PROBLEMS, SHOP, opened, print_json, problem, progress
from quizkit.words import _, ngettext

if TYPE_CHECKING:
    from quizkit.records import Verified

FILE = click.Path(dir_okay=False, path_type=Path)


@click.group("records")
def records_command() -> None:
    """The shop's file: prove it, copy it, put it back."""


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
