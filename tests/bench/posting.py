"""Answers a second through a real server, beside ten lines that insert a row: `python -m tests.bench.posting`.

Both are Flask under waitress with eight threads in a process of their own, both write to the folder given (`--in`), and
both are asked by the same client over four connections that stay open. A posted answer of ours is marked, sealed and on
disk before the page says so. Aim: at least 0.6 of the answers a second of the ten lines.
"""

import argparse
import os
import sqlite3
import statistics
import tempfile
import threading
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from tests.bench.crash import ITEMS
from tests.bench.serving import Trainee, make, running, served

CLIENTS = 4
LINE = 'id="part.answer" name="part.answer"'
"""What the page of a question holds that takes a typed number: there each answer that differs is written."""
TEN_LINES = """
import sqlite3, sys
from flask import Flask, request
from waitress.server import create_server
app = Flask(__name__)
@app.post("/")
def add():
    with sqlite3.connect(sys.argv[1], timeout=20) as conn:
        conn.execute("PRAGMA synchronous = FULL")
        conn.execute("INSERT INTO answer (body) VALUES (?)", (request.form["answer"],))
    return "written"
sqlite3.connect(sys.argv[1]).executescript("PRAGMA journal_mode = WAL; CREATE TABLE answer (body TEXT)")
keep = sqlite3.connect(sys.argv[1])
server = create_server(app, port=0, threads=8)
print("http://127.0.0.1:%s/" % server.effective_port, flush=True)
server.run()
"""

FRAME = """
import hashlib, hmac, secrets, sqlite3, sys
from flask import Flask, g, make_response, request
from waitress.server import create_server
app, key, opened = Flask(__name__), secrets.token_bytes(32), {}
def conn():
    if "conn" not in opened:
        opened["conn"] = sqlite3.connect(sys.argv[1], timeout=20, check_same_thread=False, isolation_level=None)
        opened["conn"].execute("PRAGMA synchronous = FULL")
    return opened["conn"]
@app.before_request
def arrive():
    g.seat = request.cookies.get("seat", "x")
    g.token = hmac.new(key, g.seat.encode(), hashlib.sha256).hexdigest()
    if request.method == "POST" and not hmac.compare_digest(request.form.get("token", ""), g.token):
        return "no", 400
    g.person = None
    told = hashlib.sha256(request.cookies.get("key", "").encode()).hexdigest()
    for row in conn().execute("SELECT person FROM session WHERE token = ?", (told,)):
        g.person = row[0]
@app.after_request
def leave(response):
    for name in ("Content-Security-Policy", "X-Content-Type-Options", "X-Frame-Options", "Referrer-Policy",
                 "Cache-Control"):
        response.headers[name] = "none"
    return response
@app.get("/")
def enter():
    token = secrets.token_urlsafe(32)
    seat = secrets.token_urlsafe(32)
    made = hmac.new(key, seat.encode(), hashlib.sha256).hexdigest()
    conn().execute("INSERT INTO session VALUES (?, 1)", (hashlib.sha256(token.encode()).hexdigest(),))
    answer = make_response(f'name="token" value="{made}"')
    answer.set_cookie("key", token)
    answer.set_cookie("seat", seat)
    return answer
@app.post("/")
def add():
    if g.person is None:
        return "no", 401
    conn().execute("INSERT INTO answer (body) VALUES (?)", (request.form["answer"],))
    return "written"
conn().execute("PRAGMA journal_mode = WAL")
conn().execute("CREATE TABLE answer (body TEXT)")
conn().execute("CREATE TABLE session (token TEXT PRIMARY KEY, person INTEGER)")
server = create_server(app, port=0, threads=8)
print("http://127.0.0.1:%s/" % server.effective_port, flush=True)
server.run()
"""
"""The ten lines with what a page behind a door cannot do without: two cookies, a session, a form's token, headers."""


def rate(makers: list[Callable[[], None]], seconds: float, path: Path, pid: int) -> tuple[float, float]:
    """Requests a second of several clients at once, each in a thread of its own and each of which wrote a row; and the
    milliseconds of its processor that the server took for one.
    """
    before, spent = rows(path), processor(pid)
    counts = [0] * len(makers)
    end = time.perf_counter() + seconds

    def work(place: int) -> None:
        while time.perf_counter() < end:
            makers[place]()
            counts[place] += 1

    threads = [threading.Thread(target=work, args=(place,)) for place in range(len(makers))]
    begun = time.perf_counter()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    took = time.perf_counter() - begun
    assert rows(path) - before == sum(counts), "a request that was answered wrote nothing"
    return sum(counts) / took, (processor(pid) - spent) * 1000 / sum(counts)


def bare(address: str) -> Callable[[], None]:
    """One client of the ten lines, with or without the frame."""
    trainee, turn = Trainee(address), iter(range(1 << 30))
    trainee.ask("GET", "/")

    def post() -> None:
        status, _on, _text = trainee.ask("POST", "/", {"answer": f"{next(turn)} mL"})
        assert status == 200

    return post


def ours(address: str, person: int) -> Callable[[], None]:
    """One trainee in a check of ours, who writes another number to the same question again and again."""
    trainee, turn = Trainee(address), iter(range(1 << 30))
    trainee.enter(person)
    _status, form, _text = trainee.ask("POST", "/check/ppe", {})
    pages = [f"{form}/{item}" for item in range(1, ITEMS + 1)]
    lines = [page for page in pages if LINE in trainee.ask("GET", page)[2]]

    def post() -> None:
        number = next(turn)
        status, _on, _text = trainee.ask("POST", lines[number % len(lines)], {"part.answer": f"{number} ppm"})
        assert status == 303

    return post


def processor(pid: int) -> float:
    """Seconds of the processor that a process has taken so far; 0 where the machine does not tell."""
    told = Path(f"/proc/{pid}/stat")
    if not told.exists():
        return 0.0
    user, system = told.read_text(encoding="ascii").rpartition(")")[2].split()[11:13]
    return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")


def rows(path: Path) -> int:
    """How many answers a file holds."""
    with closing(sqlite3.connect(path)) as conn:
        return int(conn.execute("SELECT count(*) FROM answer").fetchone()[0])


def main() -> None:
    """Print both rates and their ratio, round by round in turn."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--in", dest="folder", default=tempfile.gettempdir())
    asked.add_argument("--seconds", type=float, default=5)
    asked.add_argument("--rounds", type=int, default=5)
    given = asked.parse_args()
    with tempfile.TemporaryDirectory(dir=given.folder) as name:
        shop = Path(name) / "shop.db"
        make(shop, CLIENTS)
        plain_path, framed_path = Path(name) / "bare.db", Path(name) / "framed.db"
        with (
            running("-c", TEN_LINES, str(plain_path)) as (first, plain),
            running("-c", FRAME, str(framed_path)) as (second, framed),
            running(*served(shop)) as (third, address),
        ):
            sides = [
                ("ten lines", [bare(plain) for _client in range(CLIENTS)], plain_path, first.pid),
                (
                    "with session, token and headers",
                    [bare(framed) for _client in range(CLIENTS)],
                    framed_path,
                    second.pid,
                ),
                ("an answer", [ours(address, person) for person in range(2, CLIENTS + 2)], shop, third.pid),
            ]
            found: dict[str, list[tuple[float, float, float]]] = {side: [] for side, *_rest in sides}
            for _round in range(given.rounds):
                base = 0.0
                for side, makers, path, pid in sides:
                    fast, cost = rate(makers, given.seconds, path, pid)
                    base = base or fast
                    found[side].append((fast, fast / base, cost))
    print(f"{given.rounds} rounds of {given.seconds:g} s, medians (aim: an answer at least 0.6 of the ten lines)")
    for side, rounds in found.items():
        fast, share, cost = (statistics.median(column) for column in zip(*rounds, strict=True))
        print(
            f"{side:32} {fast:6.0f}/s  {share:.2f} of the ten lines  {cost:.2f} ms of the server's processor a request"
        )


if __name__ == "__main__":
    main()
