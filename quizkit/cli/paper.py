"""`quizkit paper`: checks and sheets for a bench where no tablet belongs, to be typed in afterwards."""

from __future__ import annotations

from pathlib import Path

import click

from quizkit.cli.pressing import FOLDER, writing
from quizkit.cli.told import SHOP, at_the_machine, now, opened, problem
from quizkit.words import _, ngettext

INTO = click.option("--into", type=FOLDER, default=Path("build"), show_default=True, help=_("Where to write."))


@click.group("paper")
def paper_command() -> None:
    """Checks and sheets on paper, to be typed in afterward."""


@paper_command.command("check")
@SHOP
@click.argument("skill")
@click.option("--copies", type=int, default=1, show_default=True, help=_("How many, each with numbers of its own."))
@click.option("--person", "who", default="", help=_("For this person: a name or a number. Else for whoever takes it."))
@INTO
def check_command(path: Path, skill: str, copies: int, who: str, into: Path) -> None:
    """Make checks in a SKILL, record them, and write a page to fill in and a page of marking sheets.

    Answers are typed in on the shop's pages, under Office, Paper.
    """
    from quizkit import shop as deeds
    from quizkit.press.paper import press_papers

    if who and copies != 1:
        raise click.UsageError(_("for one person one copy is drawn: leave out --copies"))
    with opened(path) as shop:
        by = at_the_machine(shop)
        person = deeds.person_named(shop, who) if who else None
        if person is None:
            made = deeds.paper_forms(shop, by, skill, copies, now=now())
        else:
            made = (deeds.paper_form(shop, by, person, skill, now=now()),)
        with writing(into):
            checks, marking = press_papers(deeds.current_pack(shop), made, into)
    numbers = ", ".join(str(one.number) for one in made)
    told = ngettext("{n} check made: number {numbers}", "{n} checks made: numbers {numbers}", len(made))
    click.echo(told.format(n=len(made), numbers=numbers))
    click.echo(_("To fill in: {file}").format(file=checks))
    click.echo(_("The marking sheets, with the right answers, to be kept away: {file}").format(file=marking))


@paper_command.command("sheet")
@SHOP
@click.argument("skill")
@INTO
def sheet_command(path: Path, skill: str, into: Path) -> None:
    """Write the page of a SKILL's sheet, to be filled in by hand and entered late with a photo."""
    from quizkit import shop as deeds
    from quizkit.press.sheets import press_sheet

    with opened(path) as shop:
        pack = deeds.current_pack(shop)
    module = next((one for one in pack.modules if skill in (one.scheme.skill, one.id)), None)
    if module is None or module.sheet is None:
        known = ", ".join(one.scheme.skill for one in pack.modules if one.sheet is not None) or _("none")
        problem(_("There is no sheet for '{skill}'").format(skill=skill), _("there are: {known}").format(known=known))
    with writing(into):
        click.echo(_("To fill in: {file}").format(file=press_sheet(pack, module, module.sheet, into)))
