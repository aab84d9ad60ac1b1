"""`quizkit certificate`: the signed certificate file, made and checked without any network."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import PROBLEMS, SHOP, at_the_machine, now, opened, print_json, problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.exchange.checking import Checked

FILE = click.Path(dir_okay=False, path_type=Path)


@click.group("certificate")
def certificate_command() -> None:
    """Signed certificate files: check one, make one, and the shop's public key."""


@certificate_command.command("check")
@click.argument("file", type=FILE)
@click.option("--key", required=True, help=_("The shop's public key (z6Mk…), or a file that holds it."))
@click.option("--holder", default="", help=_("The name that it was made for, to be checked too."))
@click.option("--shop", "path", type=FILE, help=_("The shop's own file, for who has it: tells a withdrawal too."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def check_command(file: Path, key: str, holder: str, path: Path | None, as_json: bool) -> None:
    """Check a signed certificate file against the key that the shop gave out: any change in it is found.

    Works without a network. Whether it was withdrawn since, only the shop can say: with --shop it does.
    """
    from quizkit.exchange.checking import check

    public = _key(key)
    told = check(_bytes(file), public, now=now(), holder=holder)
    withdrawn = _withdrawn(path, public, told) if path is not None and told.id else None
    if as_json:
        print_json(_plain(told) | {"good": told.good and not withdrawn, "withdrawn": withdrawn})
    else:
        _say(told, withdrawn)
    if not told.good or withdrawn:
        raise SystemExit(PROBLEMS)


def _withdrawn(path: Path, public: bytes, told: Checked) -> str:
    """What the shop says of a withdrawal of a genuine file's certificate; nothing where it stands."""
    from quizkit import shop as deeds
    from quizkit.exchange.credential import certificate_id

    with opened(path) as shop:
        issued = deeds.certificates(shop, at_the_machine(shop), now=now())
    one = next((one for one in issued if certificate_id(public, one.number) == told.id), None)
    if one is None:
        problem(_("The shop of this file gave out no such certificate"), _("name the file of the shop that did"))
    if one.state == "valid" or not one.reason:
        return ""
    words = _("withdrawn on {day}: {why}") if one.state == "withdrawn" else _("ended before its day: {why}")
    return words.format(day=one.withdrawn, why=one.reason)


@certificate_command.command("file")
@SHOP
@click.argument("number", type=int)
@click.argument("into", type=FILE)
def file_command(path: Path, number: int, into: Path) -> None:
    """Write the signed file of a certificate that the shop has issued."""
    from quizkit import shop as deeds
    from quizkit.exchange.certificate_file import certificate_file
    from quizkit.records import RecordsError, key_path, load_key

    with opened(path) as shop:
        view = deeds.certificate(shop, at_the_machine(shop), number, now=now())
    if view.state != "valid":
        problem(_("This certificate is {state}: no file is made of it").format(state=_(view.state)))
    try:
        into.write_bytes(certificate_file(view, load_key(key_path(path)), now=now()))
    except RecordsError as error:
        problem(error.what, error.mend)
    except OSError as error:
        problem(_("{file} cannot be written: {why}").format(file=into, why=error.strerror), _("name another file"))
    click.echo(_("Written to {file}").format(file=into))


@certificate_command.command("key")
@SHOP
def key_command(path: Path) -> None:
    """Print the shop's public key: give it to whoever is to check certificates, by a way they trust."""
    from quizkit.exchange.keys import multikey, public_of
    from quizkit.records import RecordsError, key_path, load_key

    with opened(path):
        try:
            click.echo(multikey(public_of(load_key(key_path(path)))))
        except RecordsError as error:
            problem(error.what, error.mend)


def _key(text: str) -> bytes:
    from quizkit.exchange.keys import KeyUnread, read_key

    try:
        return read_key(text)
    except KeyUnread:
        pass
    try:
        return read_key(Path(text).read_text(encoding="utf-8", errors="replace")[:1000])
    except (KeyUnread, OSError, ValueError):
        raise click.BadParameter(
            _("neither a shop's public key (z6Mk…) nor a file that holds one"), param_hint="--key"
        ) from None


def _bytes(file: Path) -> bytes:
    from quizkit.exchange.checking import LARGEST

    try:
        with file.open("rb") as stream:
            return stream.read(LARGEST + 1)
    except OSError as error:
        problem(_("{file} cannot be read: {why}").format(file=file, why=error.strerror))


def _say(told: Checked, withdrawn: str | None) -> None:
    click.echo(told.words)
    if withdrawn:
        click.echo(_("The shop says: {words}").format(words=withdrawn))
    if not told.title:
        return
    click.echo(f"{told.title}, {told.shop}")
    click.echo(told.says)
    for name, narrative in told.skills:
        click.echo(f"  {name}: {narrative}")
    if not told.holder_checked:
        click.echo(_("For whom it was made stands in it as a hash: check the name with --holder."))
    if withdrawn is None:
        click.echo(_("Whether the shop has withdrawn it since, only the shop itself can say."))
    elif not withdrawn:
        click.echo(_("The shop has not withdrawn it."))
    click.echo(_("It approves no repair, and is no license and no accredited certification."))


def _plain(told: Checked) -> dict[str, object]:
    return {
        "state": told.state,
        "good": told.good,
        "words": told.words,
        "shop": told.shop,
        "title": told.title,
        "valid_from": told.valid_from and told.valid_from.isoformat(),
        "valid_until": told.valid_until and told.valid_until.isoformat(),
        "skills": [{"name": name, "narrative": narrative} for name, narrative in told.skills],
        "holder_checked": told.holder_checked,
    }
