"""Answers a second through a real server, beside ten lines that insert a row: `python -m tests.bench.posting`.

Both are Flask under waitress with eight threads in a process of their own, both write to the folder given (`--in`), and
both are asked by the same client over four connections that stay open. A posted answer of ours is marked, sealed and on
disk before the page says so. Aim: at least 0.6 of the answers a second of the ten lines.
"""

import argparse
import statistics
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path

from tests.bench.serving import Trainee, make, running, served

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
        make(shop, CLIENTS)
        ten = ("-c", TEN_LINES, str(Path(name) / "bare.db"))
        with running(*ten) as (_plain, plain), running(*served(shop)) as (_ours, address):
            few = [bare(plain) for _client in range(CLIENTS)]
            own = [ours(address, person) for person in range(2, CLIENTS + 2)]
            shares = []
            for turn in range(given.rounds):
                base, mine = rate(few, given.seconds), rate(own, given.seconds)
                shares.append(mine / base)
                print(f"round {turn + 1}: ten lines {base:6.0f}/s  an answer {mine:6.0f}/s  ratio {mine / base:.2f}")
    print(f"median ratio {statistics.median(shares):.2f} (aim ≥ 0.6)")


if __name__ == "__main__":
    main()
