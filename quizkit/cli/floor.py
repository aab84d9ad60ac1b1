"""`quizkit job` and `quizkit cover`: who may do a job this morning, and how thin cover is in the weeks ahead."""

from __future__ import annotations

import dataclasses
import datetime as dt
from pathlib import Path

import click

from quizkit.cli.giving import FORM, INTO, JSON, formed, give, needs_a_file
from quizkit.cli.told import SHOP, at_the_machine, day, now, opened, print_json
from quizkit.words import _

SITE = click.option("--site", default="", help=_("Only this site."))


@click.command("job")
@click.argument("job", default="")
@SHOP
@click.option("--material", default="", help=_("With this material of the shelf."))
@SITE
@click.option("--day", "on", callback=day, metavar="DATE", help=_("On a day that has been, like 2026-11-25; or today."))
@FORM
@INTO
@JSON
def job_command(
    job: str, path: Path, material: str, site: str, on: dt.date | None, form: str, into: Path | None, as_json: bool
) -> None:
    """Who may do this kind of JOB with this material today: alone, beside whom, or not and why.

    Without JOB: the kinds of job that the shop knows.
    """
    from quizkit import shop as deeds
    from quizkit.exchange.cover import morning_table
    from quizkit.exchange.table import Table

    needs_a_file(form, into)
    with opened(path) as shop:
        if not job:
            kinds = tuple((one.id, one.title) for one in deeds.jobs(shop, now=now()))
            give(formed(Table(_("Kinds of job"), (_("Job"), _("Title")), kinds), form), into)
            return
        view = deeds.morning(shop, at_the_machine(shop), job, now=now(), material=material, site=site, day=on)
    if as_json:
        print_json(dataclasses.asdict(view))
    else:
        give(formed(morning_table(view), form), into)


@click.command("cover")
@SHOP
@SITE
@click.option("--away", multiple=True, help=_("As if this person were away: a name or a number."))
@click.option("--weeks", type=click.IntRange(1, 104), default=26, show_default=True, help=_("How far ahead."))
@FORM
@INTO
@JSON
def cover_command(
    path: Path, site: str, away: tuple[str, ...], weeks: int, form: str, into: Path | None, as_json: bool
) -> None:
    """How many are cleared for each skill against how many the shop wants, now and in the weeks ahead."""
    from quizkit import shop as deeds
    from quizkit.exchange.cover import cover_table

    needs_a_file(form, into)
    with opened(path) as shop:
        gone = [deeds.person_named(shop, name) for name in away]
        view = deeds.cover(shop, at_the_machine(shop), now=now(), site=site, weeks=weeks, away=gone)
    if as_json:
        print_json(dataclasses.asdict(view))
    else:
        give(formed(cover_table(view, weeks=form != "text"), form), into)
