"""`quizkit questions`: how the questions of a skill's check were answered."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.giving import FORM, INTO, JSON, formed, give, needs_a_file
from quizkit.cli.told import SHOP, at_the_machine, now, opened, print_json
from quizkit.words import _, ngettext

if TYPE_CHECKING:
    from quizkit.shop import StatisticsView


@click.command("questions")
@click.argument("skill")
@SHOP
@FORM
@INTO
@JSON
def questions_command(skill: str, path: Path, form: str, into: Path | None, as_json: bool) -> None:
    """How the questions of a skill's full checks were answered, those to be looked at first.

    Below the number of people that the shop has set it says words; above it the share right with its range, how a
    question goes with the rest, what was taken wrong, the time it took, and how well the whole check decides.
    """
    from quizkit import shop as deeds
    from quizkit.exchange.questions import questions_table

    needs_a_file(form, into)
    with opened(path) as shop:
        view = deeds.question_statistics(shop, at_the_machine(shop), skill, now=now())
    if as_json:
        print_json(dataclasses.asdict(view))
        return
    made = questions_table(view)
    lines = "\n".join((*_whole(view), "", "")) if form == "text" else ""
    give(lines.encode() + formed(made, form), into)


def _whole(view: StatisticsView) -> list[str]:
    """The check as a whole, in lines."""
    people = ngettext("{n} person", "{n} people", view.people).format(n=view.people)
    checks = ngettext("{n} full check", "{n} full checks", view.forms).format(n=view.forms)
    lines = [f"{view.title}: {people}, {checks}"]
    if view.few:
        lines.append(_("below {least} people there are counts and no percentages").format(least=view.least))
    told = view.check
    if told is None:
        return lines
    mean = _("mean {mean} of {marks} marks, {need} to pass")
    lines.append(mean.format(mean=f"{told.mean:.1f}", marks=view.out_of, need=view.pass_mark))
    if told.kr20 is not None and told.standard_error is not None:
        error = _("KR-20 {kr20}, standard error {error} marks")
        lines.append(error.format(kr20=f"{told.kr20:.2f}", error=f"{told.standard_error:.1f}"))
    if told.consistency is not None:
        same = _("the same decision twice: {share}, kappa {kappa}")
        kappa = f"{told.consistency.kappa:.2f}"
        lines.append(same.format(share=f"{told.consistency.agreement:.0%}", kappa=kappa))
    return lines
