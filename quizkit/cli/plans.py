"""`quizkit plan`: who learns or renews what next."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.giving import FORM, INTO, JSON, formed, give, needs_a_file
from quizkit.cli.told import SHOP, at_the_machine, now, opened, print_json
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import PlanView


@click.command("plan")
@SHOP
@click.option("--site", default="", help=_("Only this site."))
@click.option("--weeks", type=int, default=26, show_default=True, help=_("How far ahead."))
@click.option("--spare", "spared", multiple=True, help=_("Ask this person for nothing: a name or a number."))
@FORM
@INTO
@JSON
def plan_command(
    path: Path, site: str, weeks: int, spared: tuple[str, ...], form: str, into: Path | None, as_json: bool
) -> None:
    """The cheapest training and renewals that keep the cover wanted, with a day and a reason a line."""
    from quizkit import shop as deeds
    from quizkit.exchange.plan import plan_table

    needs_a_file(form, into)
    with opened(path) as shop:
        left_out = [deeds.person_named(shop, name) for name in spared]
        view = deeds.plan(shop, at_the_machine(shop), now=now(), site=site, weeks=weeks, spared=left_out)
    if as_json:
        print_json(dataclasses.asdict(view))
        return
    made = plan_table(view)
    lines = "\n".join((*_whole(view), "", "")) if form == "text" else ""
    give(lines.encode() + (formed(made, form) if view.rows or not lines else b""), into)


def _whole(view: PlanView) -> list[str]:
    """The plan as a whole, in lines."""
    told = _("{day} to {through}: {hours} h {minutes} min in all")
    hours, minutes = divmod(view.minutes, 60)
    lines = [told.format(day=view.day, through=view.through, hours=hours, minutes=minutes)]
    if not view.exact:
        lines.append(_("nearly the least time; a shorter plan may exist"))
    for one in view.short:
        short = _("{title}, {site}: {reachable} of {wanted} people could ever hold it")
        lines.append(short.format(title=one.title, site=one.site_title, reachable=one.reachable, wanted=one.wanted))
    return lines
