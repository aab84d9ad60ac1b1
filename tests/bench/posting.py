"""Answers a second through a real server, beside ten lines that insert a row: `python tests/bench/posting.py`.

Both are Flask under waitress with eight threads in a process of their own, both write to the folder given (`--in`), and
both are asked by the same client over four connections that stay open. A posted answer of ours is marked, sealed and on
disk before the page says so. Aim: at least 0.6 of the answers a second of the ten lines.
"""

import argparse
import http.client
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.parse
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
CONTENT = ROOT / "tests" / "shop" / "content"
CLIENTS = 4
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
PEOPLE = """
import sys, datetime as dt
import quizkit
from quizkit import shop as deeds
from quizkit.shop import secret
secret.COST = 8
now = dt.datetime.now(dt.UTC)
with deeds.open_shop(sys.argv[1], create=True) as shop:
    deeds.publish(shop, quizkit.compile_content(sys.argv[2]), None, now=now)
    boss = deeds.add_person(
        shop, name="Boss", role="manager", site="north", secret="nine grey anvils hum", by=None, now=now)
    for number in range(int(sys.argv[3])):
        deeds.add_person(
            shop, name=f"Number {number}", role="apprentice", site="north", secret="2795", by=boss, now=now)
"""


class Trainee:
    """One browser over one connection that stays open."""

    def __init__(self, address: str) -> None:
        self.conn = http.client.HTTPConnection(urllib.parse.urlsplit(address).netloc, timeout=60)
        self.cookies: dict[str, str] = {}
        self.token = ""

    def ask(self, way: str, path: str, fields: dict[str, str] | None = None) -> tuple[int, str, str]:
        """Status, address to go on to, and body of one request."""
        heads = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        body = None
        if fields is not None:
            body = urllib.parse.urlencode({"token": self.token, **fields})
            heads["Content-Type"] = "application/x-www-form-urlencoded"
        self.conn.request(way, path, body, heads)
        answer = self.conn.getresponse()
        text = answer.read().decode()
        for cookie in answer.headers.get_all("Set-Cookie") or ():
            name, _equals, value = cookie.split(";")[0].partition("=")
            self.cookies[name] = value
        if found := re.search(r'name="token" value="(\w+)"', text):
            self.token = found[1]
        return answer.status, answer.headers.get("Location", ""), text

    def enter(self, person: int, secret: str = "2795") -> None:
        """Sign in."""
        self.ask("GET", f"/sign-in/{person}")
        status, _on, text = self.ask("POST", f"/sign-in/{person}", {"secret": secret})
        assert status == 303, text


@contextmanager
def serving(*command: str) -> Iterator[str]:
    """A server in a process of its own: its address."""
    process = subprocess.Popen([sys.executable, *command], stdout=subprocess.PIPE, text=True, cwd=ROOT)
    assert process.stdout is not None
    try:
        found = None
        while found is None:
            line = process.stdout.readline()
            assert line, "the server ended"
            found = re.search(r"http://\S+", line)
        yield found[0]
    finally:
        process.kill()
        process.wait()


def rate(makers: list[Callable[[], None]], seconds: float) -> float:
    """Requests a second of several clients at once, each in a thread of its own."""
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
    return sum(counts) / (time.perf_counter() - begun)


def bare(address: str) -> Callable[[], None]:
    """One client of the ten lines."""
    trainee, turn = Trainee(address), iter(range(1 << 30))

    def post() -> None:
        status, _on, _text = trainee.ask("POST", "/", {"answer": f"{next(turn)} mL"})
        assert status == 200

    return post


def ours(address: str, person: int) -> Callable[[], None]:
    """One trainee in a check of ours, who writes another answer to its questions again and again."""
    trainee, turn = Trainee(address), iter(range(1 << 30))
    trainee.enter(person)
    _status, form, _text = trainee.ask("POST", "/check/ppe", {})

    def post() -> None:
        number = next(turn)
        status, _on, _text = trainee.ask("POST", f"{form}/{number % 2 + 1}", {"part.answer": f"{number} ppm"})
        assert status == 303

    return post


def main() -> None:
    """Print both rates and their ratio, round by round in turn."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--in", dest="folder", default=tempfile.gettempdir())
    asked.add_argument("--seconds", type=float, default=5)
    asked.add_argument("--rounds", type=int, default=5)
    given = asked.parse_args()
    with tempfile.TemporaryDirectory(dir=given.folder) as name:
        shop = Path(name) / "shop.db"
        subprocess.run([sys.executable, "-c", PEOPLE, str(shop), str(CONTENT), str(CLIENTS)], check=True, cwd=ROOT)
        serve = ("-c", "from quizkit.cli import main; main()", "serve", "--shop", str(shop), "--port", "0")
        with serving("-c", TEN_LINES, str(Path(name) / "bare.db")) as plain, serving(*serve) as shop_address:
            few = [bare(plain) for _client in range(CLIENTS)]
            own = [ours(shop_address, person) for person in range(2, CLIENTS + 2)]
            shares = []
            for turn in range(given.rounds):
                base, mine = rate(few, given.seconds), rate(own, given.seconds)
                shares.append(mine / base)
                print(f"round {turn + 1}: ten lines {base:6.0f}/s  an answer {mine:6.0f}/s  ratio {mine / base:.2f}")
    print(f"median ratio {statistics.median(shares):.2f} (aim ≥ 0.6)")


if __name__ == "__main__":
    main()
