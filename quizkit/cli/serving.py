"""`quizkit serve`: a shop's file for browsers."""

from __future__ import annotations

import datetime as dt
import logging
import threading
import webbrowser
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import SHOP, now, opened, problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.shop import Shop

FOLDER = click.Path(file_okay=False, path_type=Path)
LOOPBACK = "127.0.0.1"
THREADS = 8
CONNECTIONS = 1000
"""Open connections at once: a browser holds several, and one too many would wait without a word."""
PROXY = {
    "trusted_proxy": LOOPBACK,
    "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto", "x-forwarded-host"},
    "clear_untrusted_proxy_headers": True,
}
"""With TLS in front, on the same machine: whose address asks, and by which name, is what stands in front says. Without
it such words are nobody's to say, and every tablet would share one address and its waits."""
WATCH = 300
"""Seconds between two looks at what the clock alone brings about."""
PORT = click.option("--port", type=click.IntRange(0, 65535), default=8713, show_default=True, help=_("0 for any."))


@click.command("serve")
@SHOP
@click.option("--content", type=FOLDER, help=_("Publish this content first, where it differs from what is in force."))
@click.option("--by", type=int, help=_("The manager who publishes it: a person's number."))
@click.option("--host", default=LOOPBACK, show_default=True, help=_("Other machines only with TLS in front."))
@PORT
@click.option("--tls", is_flag=True, help=_("TLS stands in front: cookies go over it alone."))
def serve_command(path: Path, content: Path | None, by: int | None, host: str, port: int, tls: bool) -> None:
    """Serve a shop's file to browsers on this machine."""
    with opened(path) as shop:
        if content is not None:
            _publish(shop, content, by)
        name = ready(shop)
    run_server(path, name, host, port, tls=tls)


def _publish(shop: Shop, content: Path, by: int | None) -> None:
    from quizkit import shop as deeds
    from quizkit.cli.compiling import pack_of_folder

    done = deeds.publish(shop, pack_of_folder(content), by, now=now())
    told = _("In force: {title} ({new} questions new, {changed} changed, {gone} gone)")
    counts = {"new": len(done.new), "changed": len(done.changed), "gone": len(done.gone)}
    click.echo(told.format(title=done.title, **counts))


def ready(shop: Shop) -> str:
    """What the shop is called; refuses where nothing is published or nobody could sign in."""
    from quizkit import shop as deeds

    name = deeds.settings(shop).name
    if not deeds.people(shop):
        problem(_("Nobody could sign in yet"), _("add a manager: quizkit person add --shop FILE --role manager …"))
    return name


def run_server(path: Path, name: str, host: str, port: int, *, tls: bool = False, show: bool = False) -> None:
    """Serve a file until it is stopped; `show` opens a browser on it."""
    from waitress.server import create_server

    from quizkit.records import RecordsError, form_secret
    from quizkit.web import create_app
    from quizkit.web.app import LARGEST_BODY
    from quizkit.web.turns import in_turn

    try:
        secret = form_secret(path)
    except RecordsError as error:
        problem(error.what, error.mend)
    _say_key(path)
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # a full minute would say so with every request
    app = create_app(path, secret=secret, secure=tls)
    try:
        server = create_server(
            in_turn(app),
            host=host,
            port=port,
            threads=THREADS,
            max_request_body_size=2 * LARGEST_BODY,  # the app says it more kindly, a flood ends here
            connection_limit=CONNECTIONS,
            asyncore_use_poll=True,
            **(PROXY if tls else {}),
        )
    except OSError as error:
        problem(
            _("Port {port} cannot be opened: {why}").format(port=port, why=error.strerror),
            _("stop what runs there, or name another with --port"),
        )
    address = f"http://{host}:{server.effective_port}/"
    over = threading.Event()
    watch = threading.Thread(target=_watch, args=(path, over), daemon=True)
    watch.start()
    try:
        click.echo(_("{shop} is open at {address}").format(shop=name, address=address))
        click.echo(_("Stop it with Ctrl-C."))
        if show:
            threading.Timer(0.5, webbrowser.open, (address,)).start()
        server.run()
    except KeyboardInterrupt:
        click.echo("")
    finally:
        over.set()
        server.close()
        watch.join()


def _say_key(path: Path) -> None:
    """Tell loudly where the shop's key is not there: it goes on, and signs nothing."""
    from quizkit.records import RecordsError, key_path, load_key

    try:
        load_key(key_path(path))
    except RecordsError as error:
        loud = _("THE SHOP'S KEY CANNOT BE USED. No head and no certificate can be signed until it is mended.")
        click.echo(f"{loud} {error.what}: {error.mend}", err=True)


def _watch(path: Path, over: threading.Event) -> None:
    """While the server runs: hand in checks whose time is over, sign the head of each day, work standings out ahead.

    At the start and once a day it empties the log, so that what was erased while somebody was reading is gone too. It
    keeps the file open all the time, so that the last page closing it does not tidy the log up each time.
    """
    from quizkit.records import RecordsError, daily_head, forget
    from quizkit.shop import Refusal, close_overdue, keep_standings, open_shop

    emptied: dt.date | None = None
    with open_shop(path) as shop:

        def empty_log(moment: dt.datetime) -> None:
            nonlocal emptied
            if emptied != moment.date() and forget(shop.records):
                emptied = moment.date()

        works = (
            lambda moment: close_overdue(shop, now=moment),
            lambda moment: daily_head(shop.records, moment),
            lambda moment: keep_standings(shop, now=moment),
            empty_log,
        )
        while True:
            for work in works:
                try:
                    work(now())
                except (Refusal, RecordsError) as error:
                    click.echo(str(error), err=True)
            if over.wait(WATCH):
                return
