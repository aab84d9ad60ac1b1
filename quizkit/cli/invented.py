"""`quizkit demo`: an invented shop, made once and opened again after."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.serving import LOOPBACK, PORT, ready, run_server
from quizkit.cli.told import now, opened, problem, progress
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import Shop

FOLDER = click.Path(file_okay=False, path_type=Path)


@click.command("demo")
@click.option(
    "--into", type=FOLDER, default=Path("quizkit-demo"), show_default=True, help=_("Where everything is kept.")
)
@PORT
@click.option("--no-open", is_flag=True, help=_("Do not open a browser."))
def demo_command(into: Path, port: int, no_open: bool) -> None:
    """Make an invented shop with a year of work in it, and open it.

    The first run makes DIR/shop.db, the next ones open it.
    """
    path = into / "shop.db"
    if not path.exists():
        _make(into, path)
    with opened(path) as shop:
        name = ready(shop)
        _say_doors(shop)
    run_server(path, name, LOOPBACK, port, show=not no_open)


def _make(into: Path, path: Path) -> None:
    """Make the shop in a file beside, and give it its name when all of it stands."""
    from quizkit import demo
    from quizkit.cli.compiling import pack_of_folder
    from quizkit.shop import Refusal

    try:
        into.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        problem(
            _("{folder} cannot be made: {why}").format(folder=into, why=error.strerror), _("name another with --into")
        )
    pack = pack_of_folder(demo.content_folder())
    click.echo(_("Making the invented shop in {path} …").format(path=path))
    try:
        with progress(_("making")) as tick:
            demo.make_file(path, pack, now=now(), tick=tick)
    except Refusal as refusal:
        problem(refusal.what, refusal.mend)


def _say_doors(shop: Shop) -> None:
    """Who can sign in with what, as the demo gave it to them."""
    from quizkit import shop as deeds
    from quizkit.demo.cast import CAST

    secrets = {member.name: member.secret for member in CAST}
    rows = [row for row in deeds.roster(shop) if row.name in secrets]
    width = max((len(row.name) for row in rows), default=0)
    click.echo(_("Everything here is invented. Sign in as:"))
    for row in rows:
        click.echo(
            f"  {row.name:<{width}}  {row.role:<10}  {row.site_title:<10}  {row.secret_kind}: {secrets[row.name]}"
        )
