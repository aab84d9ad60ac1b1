"""What the commands share: telling a mishap in words with its mend, and texts of a page as plain lines."""

from __future__ import annotations

import datetime as dt
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop.handle import Shop

STEPS = 1000
"""Of a bar for a long task."""
PROBLEMS = 1
"""The exit status where problems were found; 2 is click's own for wrong use."""

SHOP = click.option(
    "--shop",
    "path",
    required=True,
    type=click.Path(dir_okay=False, path_type=Path),
    help=_("The shop's file."),
)


def problem(what: str, mend: str = "") -> NoReturn:
    """Say what is wrong and how to mend it, and end with the status for problems."""
    click.echo(what, err=True)
    if mend:
        click.echo("   " + _("mend: {mend}").format(mend=mend), err=True)
    raise SystemExit(PROBLEMS)


@contextmanager
def opened(path: Path, *, create: bool = False) -> Iterator[Shop]:
    """The shop of a file, whose refusals are told as words. Nothing half-done is left behind."""
    from quizkit.shop.handle import open_shop
    from quizkit.shop.refusal import Refusal

    if not create and not path.exists():
        begin = "quizkit person add --shop FILE --content FOLDER --role manager --name NAME"
        problem(
            _("There is no shop at {path}").format(path=path),
            _("name the shop's file; a new shop begins with '{begin}'").format(begin=begin),
        )
    fresh = create and not path.exists()
    try:
        with open_shop(path, create=create) as shop:
            yield shop
    except Refusal as refusal:
        if fresh:
            _unmake(path)
        problem(refusal.what, refusal.mend)


def _unmake(path: Path) -> None:
    """Take away the file of a shop that did not come to be, and what stands beside it."""
    from quizkit.records import key_path

    for each in (path, key_path(path), *(path.with_name(f"{path.name}{end}") for end in ("-wal", "-shm"))):
        each.unlink(missing_ok=True)


def at_the_machine(shop: Shop) -> int:
    """The person as whom views are shown here: whoever may read the file sees what its managers see."""
    from quizkit.shop import people

    managers = [one.person for one in people(shop) if one.role == "manager"]
    if not managers:
        problem(_("This shop has no manager yet"), _("add one: quizkit person add --shop FILE --role manager …"))
    return managers[0]


def now() -> dt.datetime:
    """This moment, as deeds want it."""
    return dt.datetime.now(dt.UTC)


@contextmanager
def progress(label: str) -> Iterator[Callable[[float], None]]:
    """A bar for a long task on a terminal, and nothing in a pipe; call what it gives with the share that is done."""
    stream = sys.stderr
    if not stream.isatty():
        yield lambda share: None
        return
    with click.progressbar(length=STEPS, label=label, file=stream) as bar:
        yield lambda share: bar.update(max(0, int(share * STEPS) - bar.pos))


def print_json(value: object) -> None:
    """A value for a program, on standard output."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=2, default=str))


def day(context: click.Context, parameter: click.Parameter, value: str | None) -> dt.date | None:
    """A date option, as 2026-11-25."""
    if not value:
        return None
    try:
        return dt.date.fromisoformat(value)
    except ValueError:
        raise click.BadParameter(_("'{value}' is no date: write it like 2026-11-25").format(value=value)) from None


class _Lines(HTMLParser):
    """The words of HTML, a block a line, list items with their mark."""

    _BLOCKS = frozenset({"p", "li", "tr", "pre", "h1", "h2", "h3", "h4", "table", "ul", "ol", "figure", "div"})

    def __init__(self) -> None:
        super().__init__()
        self.lines = [""]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if tag in self._BLOCKS:
            self.lines.append("- " if tag == "li" else "")
        elif tag in ("td", "th"):
            self.lines[-1] += "  "
        if tag == "figure":
            self.lines[-1] += _pictured(values.get("data-figure") or "", values.get("data-values") or "")

    def handle_endtag(self, tag: str) -> None:
        if tag in self._BLOCKS:
            self.lines.append("")

    def handle_data(self, data: str) -> None:
        self.lines[-1] += data.replace("\n", " ")


def _pictured(name: str, values: str) -> str:
    """A picture in words. Where reading it is the question its numbers are the key: then what a trainer reads out."""
    from quizkit.pictures import SPOKEN

    if name in SPOKEN:
        return _("(picture: {words})").format(words=SPOKEN[name](*map(float, values.split())))
    return _("(picture: {name} {values})").format(name=name, values=values)


def lines(html: str) -> list[str]:
    """The words of a text in HTML as lines for a terminal."""
    reader = _Lines()
    reader.feed(html)
    reader.close()
    return [text for line in reader.lines if (text := line.strip()) not in ("", "-")]
