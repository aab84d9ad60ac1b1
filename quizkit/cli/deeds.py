"""`quizkit deed`: what a trainer or a manager does about a clearance besides signing, at the machine itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import SHOP, day, now, opened, problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import Shop

BY = click.option("--by", required=True, help=_("Who does it: a name or a number."))
PERSON = click.argument("person")
SKILL = click.argument("skill")
REASON = click.option("--reason", required=True, help=_("Why; it is kept with the evidence."))
SEEN = click.option("--seen-on", callback=day, metavar="DATE", help=_("The day it happened; today if left out."))


@click.group("deed")
def deed_command() -> None:
    """What is done about a clearance: grants, proofs, withdrawals, waits, talks, appeals, changes of product."""


def _done(path: Path, by: str, deed: Callable[[Shop, int], int]) -> None:
    """Do a deed as somebody, and say under which number it was written down."""
    from quizkit import shop as deeds

    with opened(path) as shop:
        number = deed(shop, deeds.person_named(shop, by))
    click.echo(_("Written down as row {number}.").format(number=number))


@deed_command.command("grant")
@SHOP
@PERSON
@SKILL
@BY
@click.option("--starts", callback=day, metavar="DATE", help=_("The first day; today if left out."))
@click.option("--until", callback=day, metavar="DATE", help=_("The last day; open if left out."))
@click.option("--founding", is_flag=True, help=_("Without a clearance of their own, on an outside basis."))
@click.option("--basis", default="", help=_("On what basis; a founding grant needs one."))
def grant_command(
    path: Path,
    person: str,
    skill: str,
    by: str,
    starts: dt.date | None,
    until: dt.date | None,
    founding: bool,
    basis: str,
) -> None:
    """Entitle somebody to sign the sheets of a skill."""
    from quizkit import shop as deeds

    def deed(shop: Shop, who: int) -> int:
        whom, told = deeds.person_named(shop, person), {"starts": starts, "until": until}
        return deeds.grant(shop, who, whom, skill, now=now(), basis=basis, founding=founding, **told)

    _done(path, by, deed)


@deed_command.command("rights")
@SHOP
def rights_command(path: Path) -> None:
    """All entitlements, with the number that 'end' asks for."""
    from quizkit import shop as deeds
    from quizkit.exchange import table

    with opened(path) as shop:
        rows = tuple(
            (one.number, one.name, one.title, one.starts, one.until, _("in force") if one.active else _("not in force"))
            for one in deeds.entitlements(shop, now=now())
        )
    heads = (_("Number"), _("Name"), _("Skill"), _("From"), _("Until"), "")
    click.echo(table.text(table.Table("", heads, rows)), nl=False)


@deed_command.command("end")
@SHOP
@click.argument("entitlement", type=int)
@REASON
@BY
def end_command(path: Path, entitlement: int, reason: str, by: str) -> None:
    """End an entitlement, by its number; what was signed under it stands."""
    from quizkit import shop as deeds

    _done(path, by, lambda shop, who: deeds.end_entitlement(shop, who, entitlement, reason, now=now()))


@deed_command.command("proof")
@SHOP
@PERSON
@click.argument("kind")
@click.option("--until", callback=day, metavar="DATE", help=_("The last day, from the paper."))
@click.option("--detail", default="", help=_("The one fact that this kind keeps; never anything medical."))
@SEEN
@BY
def proof_command(
    path: Path, person: str, kind: str, until: dt.date | None, detail: str, seen_on: dt.date | None, by: str
) -> None:
    """Record an outside proof whose paper was seen: a KIND of the shop's settings, like fit-test."""
    from quizkit import shop as deeds

    def deed(shop: Shop, who: int) -> int:
        whom = deeds.person_named(shop, person)
        return deeds.see_proof(shop, who, whom, kind, until, now=now(), seen_on=seen_on, detail=detail)

    _done(path, by, deed)


@deed_command.command("withdraw")
@SHOP
@PERSON
@SKILL
@REASON
@SEEN
@BY
def withdraw_command(path: Path, person: str, skill: str, reason: str, seen_on: dt.date | None, by: str) -> None:
    """Take away somebody's clearance in a skill."""
    from quizkit import shop as deeds

    def deed(shop: Shop, who: int) -> int:
        return deeds.withdraw(shop, who, deeds.person_named(shop, person), skill, reason, now=now(), seen_on=seen_on)

    _done(path, by, deed)


@deed_command.command("give-back")
@SHOP
@PERSON
@SKILL
@REASON
@click.option("--counts-again", is_flag=True, help=_("What they had shown before counts again."))
@BY
def give_back_command(path: Path, person: str, skill: str, reason: str, counts_again: bool, by: str) -> None:
    """End the withdrawal of somebody's clearance; without --counts-again they show everything anew."""
    from quizkit import shop as deeds

    def deed(shop: Shop, who: int) -> int:
        whom = deeds.person_named(shop, person)
        number = deeds.cell(shop, who, whom, skill, now=now()).withdrawal
        if not number:
            problem(_("No withdrawal stands over {skill} of {name}").format(skill=skill, name=person))
        return deeds.end_withdrawal(shop, who, number, reason, now=now(), restores=counts_again)

    _done(path, by, deed)


@deed_command.command("lift")
@SHOP
@PERSON
@SKILL
@REASON
@BY
def lift_command(path: Path, person: str, skill: str, reason: str, by: str) -> None:
    """Lift the wait after somebody's last failed check."""
    from quizkit import shop as deeds

    def deed(shop: Shop, who: int) -> int:
        return deeds.lift_wait(shop, who, deeds.person_named(shop, person), skill, reason, now=now())

    _done(path, by, deed)


@deed_command.command("talk")
@SHOP
@PERSON
@SKILL
@click.option("--practiced", required=True, help=_("What was practiced."))
@BY
def talk_command(path: Path, person: str, skill: str, practiced: str, by: str) -> None:
    """Record that failed checks were talked over, so that the next one may start."""
    from quizkit import shop as deeds

    def deed(shop: Shop, who: int) -> int:
        return deeds.record_talk(shop, who, deeds.person_named(shop, person), skill, practiced, now=now())

    _done(path, by, deed)


@deed_command.command("appeals")
@SHOP
def appeals_command(path: Path) -> None:
    """The appeals that wait for an answer, with the number that 'answer' asks for."""
    from quizkit import shop as deeds
    from quizkit.exchange import table

    with opened(path) as shop:
        rows = tuple(
            (one.number, one.made_on, one.name, one.title, one.about, one.words) for one in deeds.open_appeals(shop)
        )
    heads = (_("Number"), _("Day"), _("Name"), _("Skill"), _("About"), _("Words"))
    click.echo(table.text(table.Table("", heads, rows)), nl=False)


@deed_command.command("answer")
@SHOP
@click.argument("appeal", type=int)
@click.argument("verdict", type=click.Choice(("upheld", "turned-down")))
@click.option("--words", required=True, help=_("The answer; the person reads it."))
@BY
def answer_command(path: Path, appeal: int, verdict: str, words: str, by: str) -> None:
    """Answer an appeal, by its number."""
    from quizkit import shop as deeds

    upheld = verdict == "upheld"
    _done(path, by, lambda shop, who: deeds.answer_appeal(shop, who, appeal, words, upheld, now=now()))


@deed_command.command("strike")
@SHOP
@click.argument("row")
@REASON
@BY
def strike_command(path: Path, row: str, reason: str, by: str) -> None:
    """Withdraw a row that was wrong, like sheet:4; it stays readable and counts no more."""
    from quizkit import shop as deeds

    _done(path, by, lambda shop, who: deeds.strike(shop, who, row, reason, now=now()))


@deed_command.command("changes")
@SHOP
def changes_command(path: Path) -> None:
    """What changed on the shelf, with the number that 'mark' asks for."""
    from quizkit import shop as deeds
    from quizkit.cli.told import at_the_machine
    from quizkit.exchange import table

    with opened(path) as shop:
        rows = tuple(
            (one.number, one.day, one.material, _(one.kind), _(one.size), one.until, len(one.people))
            for one in deeds.changes(shop, at_the_machine(shop), now=now())
        )
    heads = (_("Number"), _("Day"), _("Material"), _("What"), _("Marked"), _("Shown by"), _("Used by"))
    click.echo(table.text(table.Table("", heads, rows)), nl=False)


@deed_command.command("mark")
@SHOP
@click.argument("change", type=int)
@click.argument("size", type=click.Choice(("small", "large")))
@click.option("--until", callback=day, metavar="DATE", help=_("By when a large change is shown again."))
@BY
def mark_command(path: Path, change: int, size: str, until: dt.date | None, by: str) -> None:
    """Mark a change of the shelf as small, or as large: then its users take a short check and show a new sheet."""
    from quizkit import shop as deeds

    _done(path, by, lambda shop, who: deeds.mark_change(shop, who, change, size, now=now(), until=until))
