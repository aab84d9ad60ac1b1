"""Many trainees at once through a real server: `python -m tests.bench.crowd [--trainees 100] [--seconds 300]`.

Everybody signs in, practises and takes a check as fast as the server answers, so that all of them always wait for it.
Some press twice, some have a second tab, some go back and send the same again. No request may meet a fault or hear of a
lock; in the end each answer is there once, each draw is marked once, each check is handed in once, and the chain holds.
"""

import argparse
import random
import re
import sqlite3
import statistics
import tempfile
import threading
import time
from collections import defaultdict
from contextlib import closing
from pathlib import Path

from quizkit.records import verify_file
from tests.bench.crash import BOX, ITEMS, Told, lost
from tests.bench.serving import Trainee, make, running, served

FINE = frozenset([200, 302, 303, 422])
"""What a request may be answered with: a page, a way on, an answer asked again because it was not understood."""


class Crowd:
    """What all of them met: how long each kind of request took, what was told, and what went wrong."""

    def __init__(self) -> None:
        self.told = Told()
        self.took: dict[str, list[float]] = defaultdict(list)
        self.faults: list[str] = []

    def ask(self, kind: str, trainee: Trainee, way: str, path: str, fields: dict[str, str] | None = None) -> str:
        """One request, timed; gives where it leads, or the page."""
        begun = time.perf_counter()
        status, onward, text = trainee.ask(way, path, fields)
        self.took[kind].append(time.perf_counter() - begun)
        if status not in FINE:
            self.faults.append(f"{way} {path}: {status} {text[:3000]}")
        return onward or text

    def live(self, trainee: Trainee, address: str, person: int, rounds: int, end: float, chance: random.Random) -> None:
        """One trainee: signs in, works for so many rounds or until `end`, hands in."""
        try:
            self._enter(trainee, person)
            form = self.ask("begin a check", trainee, "POST", "/check/ppe", {})
            boxes = [item for item in range(1, ITEMS + 1) if BOX in trainee.ask("GET", f"{form}/{item}")[2]]
            tab = Trainee(address)
            tab.cookies, tab.token = trainee.cookies, trainee.token
            while rounds > 0 and time.perf_counter() < end:
                rounds -= 1
                for item in boxes:
                    self._answer(trainee, tab, form, item, chance)
                self._practise(trainee, tab, chance)
            self._press_twice("hand in", trainee, tab, f"{form}/hand-in", {"sure": "yes"})
            self.told.handed.add(int(form.rsplit("/", 1)[1]))
        except Exception as fault:
            self.faults.append(f"{type(fault).__name__}: {fault}")

    def _enter(self, trainee: Trainee, person: int) -> None:
        trainee.ask("GET", f"/sign-in/{person}")
        self.ask("sign in", trainee, "POST", f"/sign-in/{person}", {"secret": "2795"})

    def _answer(self, trainee: Trainee, tab: Trainee, form: str, item: int, chance: random.Random) -> None:
        address, typed = f"{form}/{item}", f"{chance.randint(100, 999)}"
        self.ask("look at a question", trainee, "GET", address)
        if chance.random() < 0.2:
            onward = self._press_twice("answer", trainee, tab, address, {"part.answer": typed})
        else:
            onward = self.ask("answer", trainee, "POST", address, {"part.answer": typed})
        if not onward.endswith(f"/{item}"):
            self.told.answers.add((int(form.rsplit("/", 1)[1]), item, typed))
        if chance.random() < 0.1:  # back, and the same form once more
            self.ask("look at a question", trainee, "GET", address)
            self.ask("answer", tab, "POST", address, {"part.answer": typed})

    def _practise(self, trainee: Trainee, tab: Trainee, chance: random.Random) -> None:
        draw = self._press_twice("draw practice", trainee, tab, "/practise/ppe", {})
        boxes = re.findall(r'<input id="(part\.[^"]+)"', self.ask("look at a question", trainee, "GET", draw))
        typed = {box: f"{chance.randrange(10**3)}" for box in boxes}
        told = self._press_twice("answer practice", trainee, tab, draw, typed)
        if told == draw:
            self.told.practice.add(int(draw.rsplit("/", 1)[1]))
            self.ask("answer practice", tab, "POST", draw, {"part.answer": "1"})  # replayed with something else

    def _press_twice(self, kind: str, trainee: Trainee, tab: Trainee, path: str, fields: dict[str, str]) -> str:
        found: list[str] = []
        second = threading.Thread(target=lambda: found.append(self.ask(kind, tab, "POST", path, fields)))
        second.start()
        try:
            first = self.ask(kind, trainee, "POST", path, fields)
        finally:
            second.join()
        if [_for_anyone(page) for page in found] != [_for_anyone(first)]:
            self.faults.append(f"{path} pressed twice led to {first[:80]} and {found[0][:80] if found else '?'}")
        return first


def crowd(folder: Path, trainees: int, rounds: int, seconds: float) -> Crowd:
    """Let them all work at once on a new shop; raises AssertionError with words at whatever is wrong."""
    path, found = folder / "shop.db", Crowd()
    make(path, trainees)
    with running(*served(path)) as (_server, address):
        end = time.perf_counter() + seconds
        threads = [
            threading.Thread(
                target=found.live, args=(Trainee(address), address, person, rounds, end, random.Random(person))
            )
            for person in range(2, trainees + 2)
        ]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    assert not found.faults, f"{len(found.faults)} requests went wrong: {found.faults[0]}"
    assert not (wrong := lost(path, found.told)), wrong
    verified = verify_file(path)
    assert verified.sound, verified.broken
    assert len(found.told.handed) == trainees
    once(path)
    return found


def _for_anyone(page: str) -> str:
    """A page, or where one led, without the token of the browser that asked: what was not read is asked on a page."""
    return re.sub(r'name="token" value="[^"]*"', "", page)


def once(path: Path) -> None:
    """One answer, one mark: the same answer pressed twice is one row, a draw is marked once, nobody has two open."""
    twice = (
        "SELECT a.id FROM answer a JOIN answer b ON b.form = a.form AND b.item = a.item AND b.typed = a.typed "
        "AND b.id > a.id AND NOT EXISTS (SELECT 1 FROM answer c WHERE c.form = a.form AND c.item = a.item "
        "AND c.id > a.id AND c.id < b.id)",
        "SELECT draw FROM practice GROUP BY draw HAVING count(*) > 1",
        "SELECT person FROM draw WHERE id NOT IN (SELECT draw FROM practice) GROUP BY person HAVING count(*) > 1",
        "SELECT person FROM form GROUP BY person HAVING count(*) > 1",
    )
    with closing(sqlite3.connect(path)) as conn:
        for text in twice:
            assert conn.execute(text).fetchone() is None, text


def main() -> None:
    """The long run, with its figures."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--trainees", type=int, default=100)
    asked.add_argument("--seconds", type=float, default=300)
    asked.add_argument("--in", dest="folder", default=tempfile.gettempdir())
    given = asked.parse_args()
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory(dir=given.folder) as folder:
        found = crowd(Path(folder), given.trainees, 1 << 30, given.seconds)
    total, took = sum(map(len, found.took.values())), time.perf_counter() - begun
    print(f"{given.trainees} trainees, {took:.0f} s: {total} requests ({total / given.seconds:.0f}/s), none went wrong")
    for kind, times in sorted(found.took.items()):
        cuts = statistics.quantiles(times, n=100) if len(times) > 1 else times * 99
        print(f"  {kind:20} {len(times):7}  median {cuts[49] * 1000:6.0f} ms  p95 {cuts[94] * 1000:6.0f} ms")


if __name__ == "__main__":
    main()
