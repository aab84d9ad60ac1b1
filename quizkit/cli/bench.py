"""`quizkit sum`: a sum of the trade at the bench."""

from __future__ import annotations

import json

import click

from quizkit.trade import SUMS
from quizkit.trade.bench import Bench, bench, read_all
from quizkit.trade.declare import Sum
from quizkit.units import KindError, UnitError
from quizkit.words import _


@click.command("sum", context_settings={"ignore_unknown_options": True})
@click.argument("name", required=False)
@click.argument("values", nargs=-1, type=click.UNPROCESSED)
@click.option("--in", "into", default="", help=_("The unit of the result."))
@click.option("--yes", "yes", multiple=True, type=int, help=_("Answer the sum's question of that number with yes."))
@click.option("--no", "no", multiple=True, type=int, help=_("Answer the sum's question of that number with no."))
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def sum_command(
    name: str | None, values: tuple[str, ...], into: str, yes: tuple[int, ...], no: tuple[int, ...], as_json: bool
) -> None:
    """Work a sum out, with its working.

    Without a name: all sums. With a name alone: what it takes. Values stand in order, with units:

        quizkit sum hardener_for "120 mL" "10:1 by volume"
    """
    if name is None:
        _list()
        return
    one = SUMS.get(name)
    if one is None:
        raise click.UsageError(_unknown(name))
    if not values:
        _about(one)
        return
    try:
        told = bench(one, read_all(one, values), into=into, answers=_answers(one, yes, no))
    except (UnitError, KindError) as error:
        raise click.UsageError(f"{error}\n{_('Mend')}: {error.mend}" if error.mend else str(error)) from None
    if as_json:
        click.echo(json.dumps(_plain(told), ensure_ascii=False, indent=2))
    else:
        _say(told)
    if told.refused or told.open:
        raise SystemExit(1)


def _answers(one: Sum, yes: tuple[int, ...], no: tuple[int, ...]) -> list[bool]:
    """The answers in order, as far as they reach without a gap."""
    answers: list[bool] = []
    for number in range(1, len(one.asks) + 1):
        if number not in yes and number not in no:
            break
        answers.append(number in yes)
    return answers


def _unknown(name: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name, SUMS, 1)
    mend = _("did you mean '{near}'?").format(near=near[0]) if near else _("'quizkit sum' lists them all")
    return _("there is no sum '{name}'; {mend}").format(name=name, mend=mend)


def _list() -> None:
    shown = {one.name: f"{one.name}({', '.join(argument for argument, _word in one.takes)})" for one in SUMS.values()}
    width = max(len(call) for call in shown.values())
    for one in SUMS.values():
        click.echo(f"{shown[one.name]:<{width}}  {_(one.title)}")


def _about(one: Sum) -> None:
    click.echo(_(one.title))
    for argument, word in one.takes:
        click.echo(f"  {argument}: {_(word)}")
    if one.repeats:
        click.echo(_("  the last {count} may be repeated").format(count=one.repeats))
    click.echo(_("gives: {kind}").format(kind=_(one.gives)))
    click.echo(_(one.formula))
    click.echo(_("Source: {source}").format(source=_(one.source)))


def _say(told: Bench) -> None:
    if told.open:
        click.echo(_("First answer this (with --yes N or --no N):"))
        for number, words in enumerate(told.open, 1):
            click.echo(f"  {number}. {words}")
        return
    if told.refused:
        click.echo(_("No number: {words}").format(words=told.refused))
    for step in told.steps:
        click.echo(f"  {step}")
    if told.result and not (told.steps and told.steps[-1].endswith(told.result)):
        click.echo(f"  = {told.result}")
    for words in (*told.says, *told.cautions):
        click.echo(f"! {words}")
    if told.sum.source:
        click.echo(_("Source: {source}").format(source=_(told.sum.source)))


def _plain(told: Bench) -> dict[str, object]:
    return {
        "sum": told.sum.name,
        "result": told.result,
        "steps": told.steps,
        "says": told.says,
        "refused": told.refused,
        "open": told.open,
        "cautions": told.cautions,
        "source": told.sum.source,
    }
