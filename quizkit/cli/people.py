"""`quizkit person`: people added, listed, and let in again, at the machine itself."""

from __future__ import annotations

from pathlib import Path

import click

from quizkit.cli.giving import give
from quizkit.cli.told import PROBLEMS, SHOP, at_the_machine, now, opened, print_json, problem
from quizkit.words import _, ngettext

ROLES = ("apprentice", "technician", "trainer", "manager")
BY = click.option("--by", type=int, required=True, help=_("The manager who does it: a person's number."))


@click.group("person")
def person_command() -> None:
    """People of the shop: list, add, import, reset, record, leave."""


@person_command.command("list")
@SHOP
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def list_command(path: Path, as_json: bool) -> None:
    """Everybody, with the number that other commands ask for."""
    from quizkit import shop as deeds
    from quizkit.exchange import table

    with opened(path) as shop:
        rows = [(one.person, one.name, one.role, one.site_title) for one in deeds.people(shop)]
    if as_json:
        print_json([dict(zip(("person", "name", "role", "site"), row, strict=True)) for row in rows])
        return
    heads = (_("Number"), _("Name"), _("Role"), _("Site"))
    click.echo(table.text(table.Table("", heads, tuple(rows))), nl=False)


@person_command.command("add")
@SHOP
@click.option("--name", required=True)
@click.option("--role", type=click.Choice(ROLES), default="apprentice", show_default=True)
@click.option("--site", default="", help=_("The site's id; the first one where it is left out."))
@click.option("--by", type=int, help=_("The manager who adds them; nobody for the very first manager."))
@click.option("--content", type=click.Path(file_okay=False, path_type=Path), help=_("For a new shop: its content."))
def add_command(path: Path, name: str, role: str, site: str, by: int | None, content: Path | None) -> None:
    """Add somebody, and print the PIN or passphrase to hand over.

    With --content and a file that is not there yet, a new shop begins with its first manager.
    """
    from quizkit import shop as deeds
    from quizkit.cli.compiling import pack_of_folder

    pack = pack_of_folder(content) if content is not None else None
    with opened(path, create=pack is not None) as shop:
        if pack is not None:
            deeds.publish(shop, pack, by, now=now())
        places = deeds.sites(shop)
        secret = _drawn(role)
        number = deeds.add_person(
            shop, name=name, role=role, site=site or places[0].id, secret=secret, by=by, now=now()
        )
    click.echo(_("{name} is number {number}. To sign in: {secret}").format(name=name, number=number, secret=secret))


@person_command.command("import")
@SHOP
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@BY
def import_command(path: Path, file: Path, by: int) -> None:
    """Add everybody in a CSV file with the columns name, role, site (and secret), or nobody if a line is wrong."""
    from quizkit import shop as deeds
    from quizkit.exchange.people import read_people

    try:
        read = read_people(file.read_bytes())
    except OSError as error:
        problem(_("{file} cannot be read: {why}").format(file=file, why=error.strerror))
    faults = [(fault.row, fault.what, fault.mend) for fault in read.problems]
    added: tuple[deeds.PersonAdded, ...] = ()
    if not faults:
        with opened(path) as shop:
            done = deeds.add_people(shop, read.rows, by=by, now=now())
        added = done.added
        faults = [(read.lines[fault.row - 1], fault.what, fault.mend) for fault in done.problems]
    for line, what, mend in faults:
        click.echo(
            _("{file}, line {line}: {what}: {mend}").format(file=file.name, line=line, what=what, mend=mend), err=True
        )
    if faults:
        click.echo(_("Nobody was added."), err=True)
        raise SystemExit(PROBLEMS)
    click.echo(
        ngettext("{n} person added. To sign in:", "{n} people added. To sign in:", len(added)).format(n=len(added))
    )
    for one in added:
        click.echo(f"  {one.number}  {one.name}  {one.secret}")


@person_command.command("reset")
@SHOP
@click.argument("person", type=int)
@click.option("--reason", required=True, help=_("Why; it is kept with the evidence."))
@click.option("--by", type=int, help=_("Who does it; nobody is the way back from this machine, and is marked as such."))
def reset_command(path: Path, person: int, reason: str, by: int | None) -> None:
    """Give somebody a new PIN or passphrase; also the way back for a last manager who lost theirs."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        view = deeds.person_view(shop, person)
        secret = _drawn(view.role)
        deeds.reset_secret(shop, person, secret, reason, by=by, now=now())
    click.echo(_("{name} signs in with: {secret}").format(name=view.name, secret=secret))


@person_command.command("leave")
@SHOP
@click.argument("person", type=int)
@BY
@click.confirmation_option(prompt=_("Name, notes and photos are erased for good. Go on?"))
def leave_command(path: Path, person: int, by: int) -> None:
    """Somebody leaves: name, notes and photos go, the evidence stays under the number."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        done = deeds.leave(shop, person, by=by, now=now())
    click.echo(_("Number {person} has left on {day}.").format(person=done.person, day=done.left))


@person_command.command("record")
@SHOP
@click.argument("person")
@click.option("--into", type=click.Path(dir_okay=False, path_type=Path), help=_("The file to write."))
def record_command(path: Path, person: str, into: Path | None) -> None:
    """Everything that is kept about somebody (a name or a number), why and how long, as one JSON file."""
    from quizkit import shop as deeds
    from quizkit.exchange.own import record_file

    with opened(path) as shop:
        number = deeds.person_named(shop, person)
        view = deeds.own_record(shop, number, by=at_the_machine(shop), now=now())
    give(record_file(view) + b"\n", into)


def _drawn(role: str) -> str:
    from quizkit.shop.secret import drawn_passphrase, drawn_pin, needs_pin

    return drawn_pin() if needs_pin(role) else drawn_passphrase()
