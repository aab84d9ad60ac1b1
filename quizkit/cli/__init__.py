"""The command line: each command is found by its name and its room is imported only when it runs."""

from __future__ import annotations

from importlib import import_module

import click

from quizkit.words import _

COMMANDS = {
    "compile": "quizkit.cli.compiling:compile_command",
    "try": "quizkit.cli.trying:try_command",
    "demo": "quizkit.cli.invented:demo_command",
    "serve": "quizkit.cli.serving:serve_command",
    "matrix": "quizkit.cli.manager:matrix_command",
    "plan": "quizkit.cli.plans:plan_command",
    "job": "quizkit.cli.floor:job_command",
    "cover": "quizkit.cli.floor:cover_command",
    "lookback": "quizkit.cli.lookback:lookback_command",
    "questions": "quizkit.cli.questions:questions_command",
    "ticket": "quizkit.cli.desk:ticket_command",
    "stock": "quizkit.cli.desk:stock_command",
    "month": "quizkit.cli.desk:month_command",
    "cut": "quizkit.cli.trainer:cut_command",
    "press": "quizkit.cli.pressing:press_command",
    "paper": "quizkit.cli.paper:paper_command",
    "person": "quizkit.cli.people:person_command",
    "sheet": "quizkit.cli.sheets:sheet_command",
    "deed": "quizkit.cli.deeds:deed_command",
    "certificate": "quizkit.cli.certificates:certificate_command",
    "records": "quizkit.cli.records:records_command",
    "sum": "quizkit.cli.bench:sum_command",
}
"""Where each command stands. `--help` of the whole reads the short words below and imports none of them."""


def short_words() -> dict[str, str]:
    """One line a command for the list of them all."""
    return {
        "compile": _("Compile lessons into a pack, with every mistake told at once."),
        "try": _("Ask one question as a trainee sees it, then show key, slips and working."),
        "demo": _("Make an invented shop with a year of work in it, and open it."),
        "serve": _("Serve a shop's file to browsers on this machine."),
        "matrix": _("Who is cleared for what, as text, CSV, workbook, page or calendar."),
        "plan": _("Who learns or renews what next, so that cover holds."),
        "job": _("Who may do a job this morning: alone, beside whom, or why not."),
        "cover": _("How many are cleared against how many are wanted, in the weeks ahead."),
        "lookback": _("What stood behind a job in the past, and on what evidence."),
        "questions": _("How the questions of a check were answered, and what pulls people wrong."),
        "ticket": _("Jobs done, from a list."),
        "stock": _("Stock received, counted and scrapped, from a list."),
        "month": _("What went into jobs in a month, against what the tickets billed."),
        "cut": _("Where judges would draw the line in a module's check."),
        "press": _("Pages to print: lessons and previews, sheets for the bench."),
        "paper": _("Checks and sheets on paper, to be typed in afterward."),
        "person": _("People of the shop: list, add, import, reset, leave."),
        "sheet": _("Sheets: who waits, and signing, refusing or observing one."),
        "deed": _("What is done about a clearance: grants, proofs, withdrawals, waits, appeals."),
        "certificate": _("Signed certificate files: check one, make one."),
        "records": _("Prove, copy, put back and mark again the shop's file; tell other systems."),
        "sum": _("Work a sum of the trade on the bench's own numbers."),
    }


class Commands(click.Group):
    """A group that imports a command's module when the command is asked for, and not before."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, as they are listed."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, or None."""
        if cmd_name not in COMMANDS:
            return None
        module, name = COMMANDS[cmd_name].split(":")
        command = getattr(import_module(module), name)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, from their short words alone."""
        with formatter.section(_("Commands")):
            formatter.write_dl(list(short_words().items()))


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="quizkit", message="%(prog)s %(version)s")
def main() -> None:
    """Train, check and clear the people who dispense two-part repair materials."""
