"""`quizkit lookback`: what stood behind a job in the past, to read, for a spreadsheet, or as a page to print."""

from __future__ import annotations

import datetime as dt
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.giving import give
from quizkit.cli.told import SHOP, at_the_machine, day, now, opened, print_json
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import LookbackView

FORMATS = ("text", "csv", "html")


@click.command("lookback")
@SHOP
@click.option("--ticket", default="", help=_("By the number of a ticket."))
@click.option("--lot", default="", help=_("By a lot, of either side."))
@click.option("--person", "who", default="", help=_("By who did it, or stood beside: a name or a number."))
@click.option("--material", default="", help=_("By what was used."))
@click.option("--day", "on", callback=day, metavar="DATE", help=_("By the day, like 2026-11-25."))
@click.option("--skill", default="", help=_("Only this skill of theirs."))
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True)
@click.option("--into", type=click.Path(dir_okay=False, path_type=Path), help=_("The file to write."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def lookback_command(
    path: Path,
    ticket: str,
    lot: str,
    who: str,
    material: str,
    on: dt.date | None,
    skill: str,
    form: str,
    into: Path | None,
    as_json: bool,
) -> None:
    """What stood behind a job in the past, as it was then known and as it is known now.

    Who had a hand in it, what they had been taught and asked, what was seen and measured, who signed and by what right,
    and who else hangs on the same signer, questions or lot.
    """
    from quizkit import shop as deeds

    with opened(path) as shop:
        view = deeds.lookback(
            shop,
            at_the_machine(shop),
            now=now(),
            person=deeds.person_named(shop, who) if who else None,
            material=material,
            day=on,
            ticket=ticket,
            lot=lot,
            skill=skill,
        )
        settings = deeds.settings(shop)
    if as_json:
        print_json(asdict(view))
        return
    give(_formed(view, form, settings.language, settings.zone), into)


def _formed(view: LookbackView, form: str, language: str, zone: str) -> bytes:
    from quizkit.exchange import table
    from quizkit.exchange.lookback import lookback_parts, lookback_table

    if form == "html":
        from quizkit.pages import page

        return page("paper_lookback.html", language, view=view, language=language, zone=zone).encode()
    if form == "csv":
        return table.csv(lookback_table(view, zone)).encode()
    return "\n".join(f"{part.title}\n\n{table.text(part)}" for part in lookback_parts(view, zone)).encode()
