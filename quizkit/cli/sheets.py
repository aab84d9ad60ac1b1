"""`quizkit sheet`: who waits, and sheets signed, refused and observed at the machine itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from quizkit.cli.told import SHOP, day, now, opened, problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import SheetInput, Shop

T = TypeVar("T", bound=Callable[..., None])

BY = click.option("--by", required=True, help=_("Who does it: a name or a number."))
SECRET = click.option("--secret", prompt=_("Your passphrase"), hide_input=True, help=_("Asked for if left out."))
PERSON = click.argument("person")
SKILL = click.argument("skill")
FILE = click.Path(exists=True, dir_okay=False, path_type=Path)

_FILLED = (
    click.option("--material", default="", help=_("The material that was used, by its name on the shelf.")),
    click.option("--seen", default="", metavar="1,2,3", help=_("The numbers of the steps that were seen.")),
    click.option("--measure", "measures", multiple=True, metavar="NAME=VALUE", help=_("A measured value, as typed.")),
    click.option("--instrument", default="", help=_("Its number and smallest step.")),
    click.option("--seen-on", callback=day, metavar="DATE", help=_("The day it was seen; today if left out.")),
    click.option("--photo", type=FILE, help=_("The photo of a paper sheet that is entered late.")),
    click.option("--ticket", default="", help=_("The ticket, where it was done on a job.")),
    click.option("--note", default=""),
)


def _filled(command: T) -> T:
    """The options of what stands on a sheet."""
    for option in reversed(_FILLED):
        command = option(command)
    return command


@click.group("sheet")
def sheet_command() -> None:
    """Sheets: who waits for a sign-off, what one asks for, and signing, refusing or observing it."""


@sheet_command.command("waiting")
@SHOP
@BY
def waiting_command(path: Path, by: str) -> None:
    """Who waits for a sign-off, and which observed sheets wait for a signature, with their numbers."""
    from quizkit import shop as deeds
    from quizkit.exchange import table

    with opened(path) as shop:
        view = deeds.waiting(shop, deeds.person_named(shop, by), now=now())
    rows = [("", one.name, one.skill, one.until, _("to be seen"), _yours(one.entitled)) for one in view.sheets]
    rows += [
        (str(one.sheet), one.name, one.skill, one.seen_on, _("to be signed"), _yours(one.entitled))
        for one in view.to_sign
    ]
    heads = (_("Sheet"), _("Name"), _("Skill"), _("Day"), _("What"), "")
    click.echo(table.text(table.Table("", heads, tuple(rows))), nl=False)


def _yours(entitled: bool) -> str:
    return "" if entitled else _("not yours to sign")


@sheet_command.command("blank")
@SHOP
@PERSON
@SKILL
@BY
def blank_command(path: Path, person: str, skill: str, by: str) -> None:
    """What a sheet asks for: steps with their numbers, measures with their names, materials that fit."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        whom, who = deeds.person_named(shop, person), deeds.person_named(shop, by)
        view = deeds.open_sheet(shop, who, whom, skill, now=now())
    click.echo(_("{title}, {name}").format(title=view.title, name=view.name))
    for step in view.steps:
        must = _("must be seen") if step.critical else ""
        click.echo(f"  {step.number:>2}  {_plain(step.html)}  {must}".rstrip())
    for one in view.measures:
        click.echo(f"  --measure {one.name}=…  {_plain(one.what_html)} {f'({one.unit})' if one.unit else ''}".rstrip())
    if view.materials:
        click.echo(_("Materials: {names}").format(names=", ".join(one.name for one in view.materials)))
    if view.why_not:
        click.echo(_("Not yours to sign: {why}").format(why=view.why_not))


def _plain(html: str) -> str:
    """The words of a short piece of our own HTML."""
    import re
    from html import unescape

    return " ".join(unescape(re.sub(r"<[^>]*>", " ", html)).split())


@sheet_command.command("sign")
@SHOP
@PERSON
@SKILL
@_filled
@BY
@SECRET
def sign_command(path: Path, person: str, skill: str, by: str, secret: str, **filled: object) -> None:
    """Sign somebody's sheet, with your passphrase; refused with everything that is still lacking."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        who = deeds.person_named(shop, by)
        sheet = _sheet(shop, who, deeds.person_named(shop, person), skill, filled)
        number = deeds.sign_sheet(shop, who, sheet, now=now(), secret=secret)
    click.echo(_("Signed: sheet {number}.").format(number=number))


@sheet_command.command("refuse")
@SHOP
@PERSON
@SKILL
@_filled
@click.option("--reason", required=True, help=_("What was not right, and what to practice."))
@BY
def refuse_command(path: Path, person: str, skill: str, reason: str, by: str, **filled: object) -> None:
    """Refuse somebody's sheet; it is kept, and ends the endorsement of its material's family and ratio."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        who = deeds.person_named(shop, by)
        sheet = _sheet(shop, who, deeds.person_named(shop, person), skill, filled)
        number = deeds.refuse_sheet(shop, who, sheet, reason, now=now())
    click.echo(_("Refused: sheet {number}.").format(number=number))


@sheet_command.command("observe")
@SHOP
@PERSON
@SKILL
@_filled
@BY
def observe_command(path: Path, person: str, skill: str, by: str, **filled: object) -> None:
    """Record an observed sheet; it clears nobody until a trainer signs it."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        who = deeds.person_named(shop, by)
        sheet = _sheet(shop, who, deeds.person_named(shop, person), skill, filled)
        number = deeds.observe_sheet(shop, who, sheet, now=now())
    click.echo(_("Recorded: sheet {number}. It waits for a signature.").format(number=number))


@sheet_command.command("sign-observed")
@SHOP
@click.argument("numbers", type=int, nargs=-1, required=True)
@BY
@SECRET
def sign_observed_command(path: Path, numbers: tuple[int, ...], by: str, secret: str) -> None:
    """Sign the observed sheets of a visit with one passphrase: all of them, or none and why."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        deeds.sign_observed(shop, deeds.person_named(shop, by), numbers, secret, now=now())
    click.echo(_("Signed: {numbers}.").format(numbers=", ".join(map(str, numbers))))


def _sheet(shop: Shop, who: int, person: int, skill: str, filled: dict[str, object]) -> SheetInput:
    """The sheet as the options fill it in; a measure that the sheet does not have is told, and not lost."""
    from quizkit.shop import SheetInput, open_sheet

    known = [one.name for one in open_sheet(shop, who, person, skill, now=now()).measures]
    measures = _measures(filled["measures"])
    for name in measures.keys() - set(known):
        told = _("the sheet has: {names}").format(names=", ".join(known) or _("none"))
        problem(_("This sheet has no measure '{name}'").format(name=name[:40]), told)
    photo, seen_on = filled["photo"], filled["seen_on"]
    assert isinstance(seen_on, dt.date | None) and isinstance(photo, Path | None)
    return SheetInput(
        person=person,
        skill=skill,
        material=str(filled["material"]),
        seen=_numbers(str(filled["seen"])),
        measures=measures,
        instrument=str(filled["instrument"]),
        seen_on=seen_on,
        note=str(filled["note"]),
        photo=photo.read_bytes() if photo else b"",
        late=photo is not None,
        ticket=str(filled["ticket"]),
    )


def _numbers(text: str) -> frozenset[int]:
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if not all(part.isdecimal() and len(part) < 4 for part in parts):
        problem(_("'{text}' is no list of steps").format(text=text[:40]), _("write the numbers like 1,2,3"))
    return frozenset(map(int, parts))


def _measures(typed: object) -> dict[str, str]:
    assert isinstance(typed, tuple)
    found: dict[str, str] = {}
    for text in typed:
        name, sign, value = text.partition("=")
        if not sign or not name.strip():
            problem(_("'{text}' is no measure").format(text=text[:40]), _("write it like shot_a=46.3"))
        found[name.strip()] = value.strip()
    return found
