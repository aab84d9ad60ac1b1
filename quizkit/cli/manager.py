"""`quizkit matrix`: who is cleared for what, in the form that is asked for."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.giving import give
from quizkit.cli.told import SHOP, at_the_machine, day, now, opened, print_json, problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import Shop
    from quizkit.shop.matrix import MatrixView

FORMATS = ("text", "csv", "html", "xlsx", "ics")


@click.command("matrix")
@SHOP
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True)
@click.option("--as-of", callback=day, metavar="DATE", help=_("As of a date, like 2026-11-25."))
@click.option("--known", type=click.Choice(("now", "then")), default="now", help=_("As known now, or as known then."))
@click.option("--site", default="", help=_("Only this site."))
@click.option("--role", default="", help=_("Only people of this role."))
@click.option("--skill", default="", help=_("Only this skill."))
@click.option("--job", default="", help=_("Only the skills of this kind of job."))
@click.option("--into", type=click.Path(dir_okay=False, path_type=Path), help=_("The file to write; xlsx needs one."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def matrix_command(
    path: Path,
    form: str,
    as_of: dt.date | None,
    known: str,
    site: str,
    role: str,
    skill: str,
    job: str,
    into: Path | None,
    as_json: bool,
) -> None:
    """People down, skills across, a standing with its date in each cell.

    As 'ics', a calendar of the lapses to come instead.
    """
    from quizkit import shop as deeds

    if form == "xlsx" and into is None:
        raise click.UsageError(_("a workbook needs a file: name one with --into"))
    with opened(path) as shop:
        viewer = at_the_machine(shop)
        view = deeds.matrix(
            shop, viewer, now=now(), as_of=as_of, known=known, site=site, role=role, skill=skill, job=job
        )
        if as_json:
            from quizkit.exchange.matrix import matrix_plain

            print_json(matrix_plain(view))
            return
        give(_calendar(shop, viewer) if form == "ics" else _formed(view, form, deeds.settings(shop).language), into)


def _formed(view: MatrixView, form: str, language: str) -> bytes:
    from quizkit.exchange import table
    from quizkit.exchange.matrix import matrix_table

    made = matrix_table(view, short=form == "text")
    if form == "html":
        from quizkit.pages import STATIC, page, safe

        style = safe((STATIC / "wall.css").read_text(encoding="utf-8"))
        return page("paper_matrix.html", language, view=view, language=language, style=style).encode()
    return table.xlsx(made) if form == "xlsx" else (table.csv(made) if form == "csv" else table.text(made)).encode()


def _calendar(shop: Shop, viewer: int) -> bytes:
    from quizkit import shop as deeds
    from quizkit.exchange.lapses import calendar
    from quizkit.exchange.matrix import lapses

    scheme = deeds.settings(shop)
    rows = lapses(deeds.coming_lapses(shop, viewer, now=now(), days=3660), scheme.address or scheme.name)
    made = calendar(rows, name=scheme.name, now=now())
    if made is None:
        problem(_("Nothing lapses: no calendar was written"))
    return made
