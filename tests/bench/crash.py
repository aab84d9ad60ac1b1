"""A server killed while trainees answer, again and again: `python -m tests.bench.crash [--kills 300] [--in FOLDER]`.

Each round a real server is started on the same file, trainees answer, practise and hand in over HTTP, and after a drawn
number of answered requests the server is killed (SIGKILL) with others under way. Then, on the file as the kill left it:
every deed that a browser was told of is there, none is half there, the chain holds and goes on from the last head, and
the next start serves.
"""

import argparse
import http.client
import random
import sqlite3
import tempfile
import threading
import time
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from quizkit.records import Head, verify_file
from tests.bench.serving import Trainee, make, running, served

TRAINEES = 6
MOST_ANSWERS = 80
"""Answered requests before a kill, at most."""
ITEMS = 4
"""Questions of the check."""
BOX = 'name="part.answer"'
"""What the page of a question holds that takes one line: the others take a press for each option."""


@dataclass
class Told:
    """What browsers were told is written: answers by form, question and text, draws answered, forms handed in."""

    answers: set[tuple[int, int, str]] = field(default_factory=set)
    practice: set[int] = field(default_factory=set)
    forms: set[int] = field(default_factory=set)
    handed: set[int] = field(default_factory=set)
    requests: int = 0


class Round:
    """One server's life: trainees at work until so many requests are answered, then the kill."""

    def __init__(self, told: Told, enough: int) -> None:
        self.told = told
        self.enough = threading.Event()
        self.left = enough
        self.lock = threading.Lock()
        self.faults: list[str] = []

    def count(self) -> None:
        """One more request was answered."""
        with self.lock:
            self.told.requests += 1
            self.left -= 1
        if self.left <= 0:
            self.enough.set()

    def work(self, trainee: Trainee, person: int, chance: random.Random, hands_in: bool) -> None:
        """A trainee at work until the server is gone."""
        try:
            if "key" not in trainee.cookies:
                trainee.enter(person)
            form = self._post(trainee, "/check/ppe", {})
            if form:
                self.told.forms.add(int(form.rsplit("/", 1)[1]))
            boxes = [item for item in range(1, ITEMS + 1) if BOX in trainee.ask("GET", f"{form}/{item}")[2]]
            while form:
                if boxes:
                    self._answer(trainee, form, chance.choice(boxes), chance)
                self._practise(trainee, chance)
                if hands_in and chance.random() < 0.2:
                    self._post(trainee, f"{form}/hand-in", {"sure": "yes"})
                    self.told.handed.add(int(form.rsplit("/", 1)[1]))
                    return
        except (OSError, http.client.HTTPException):
            pass  # the server was killed under way: nothing was told
        except AssertionError as fault:
            self.faults.append(str(fault))
            self.enough.set()

    def _answer(self, trainee: Trainee, form: str, item: int, chance: random.Random) -> None:
        typed = f"{chance.randint(100, 999)}"
        onward = self._post(trainee, f"{form}/{item}", {"part.answer": typed})
        if onward and not onward.endswith(f"/{item}"):
            self.told.answers.add((int(form.rsplit("/", 1)[1]), item, typed))

    def _practise(self, trainee: Trainee, chance: random.Random) -> None:
        draw = self._post(trainee, "/practise/ppe", {})
        status, _on, _text = trainee.ask("POST", draw, {"part.answer": f"{chance.randrange(10**6)} ppm"})
        assert status in (303, 422), f"practice was answered with {status}"
        self.count()
        if status == 303:
            self.told.practice.add(int(draw.rsplit("/", 1)[1]))

    def _post(self, trainee: Trainee, path: str, fields: dict[str, str]) -> str:
        status, onward, text = trainee.ask("POST", path, fields)
        assert status == 303, f"{path} was answered with {status}: {text[:2000]}"
        self.count()
        return onward


def lost(path: Path, told: Told) -> list[str]:
    """What is missing or half there in a file, in words."""
    wrong = []
    with closing(sqlite3.connect(path)) as conn:
        rows = conn.execute("SELECT form, item, json_extract(typed, '$.answer') FROM answer").fetchall()
        if gone := told.answers - set(rows):
            wrong.append(f"{len(gone)} answers that were told are gone, {sorted(gone)[0]}")
        for table, column, known in (
            ("practice", "draw", told.practice),
            ("form", "id", told.forms),
            ("result", "form", told.handed),
        ):
            there = {value for (value,) in conn.execute(f"SELECT {column} FROM {table}")}
            if gone_too := known - there:
                wrong.append(f"{len(gone_too)} rows of {table} that were told are gone")
        halves = (
            f"SELECT form.id FROM form LEFT JOIN form_item ON form_item.form = form.id "
            f"GROUP BY form.id HAVING count(form_item.id) <> {ITEMS}",
            "SELECT form FROM result GROUP BY form HAVING count(*) > 1",
            "SELECT draw FROM practice GROUP BY draw HAVING count(*) > 1",
            "SELECT number FROM person WHERE number NOT IN (SELECT person FROM admin WHERE deed = 'joined')",
        )
        wrong += [f"half a deed: {text}" for text in halves if conn.execute(text).fetchone()]
    return wrong


def kills(folder: Path, count: int, seed: int = 7, say: bool = False) -> Told:
    """Kill so many servers over one file; raises AssertionError with words at the first thing that is lost."""
    chance, told, head = random.Random(seed), Told(), Head()
    path = folder / "shop.db"
    make(path, TRAINEES + count)
    trainees: dict[int, Trainee] = {}
    people = list(range(2, 2 + TRAINEES))
    for turn in range(1, count + 1):
        with running(*served(path)) as (server, address):
            this = Round(told, chance.randint(1, MOST_ANSWERS))
            threads = []
            for person in people:
                trainee = trainees.setdefault(person, Trainee(address))
                trainee.at(address)
                own = random.Random(chance.random())
                arguments = (trainee, person, own, person == people[0])
                threads.append(threading.Thread(target=this.work, args=arguments))
            for thread in threads:
                thread.start()
            assert this.enough.wait(120), "the server no longer answers"
            server.kill()
            for thread in threads:
                thread.join()
        assert not this.faults, this.faults[0]
        found = verify_file(path, heads=[head])
        assert found.sound, found.broken and found.broken.words()
        assert not (wrong := lost(path, told)), f"after kill {turn}: {'; '.join(wrong)}"
        assert found.head.position >= head.position
        head = found.head
        people = [*people[1:], people[-1] + 1]
        if say and turn % 10 == 0:
            print(f"{turn} kills, {told.requests} requests answered, {head.position} rows, nothing lost", flush=True)
    return told


def main() -> None:
    """The long run."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--kills", type=int, default=300)
    asked.add_argument("--seed", type=int, default=7)
    asked.add_argument("--in", dest="folder", default=tempfile.gettempdir())
    given = asked.parse_args()
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory(dir=given.folder) as folder:
        told = kills(Path(folder), given.kills, given.seed, say=True)
    print(
        f"{given.kills} kills in {time.perf_counter() - begun:.0f} s: {told.requests} requests answered, of them "
        f"{len(told.answers)} answers, {len(told.practice)} in practice, {len(told.handed)} checks handed in; "
        "every one kept, none half written, the chain whole, every next start clean"
    )


if __name__ == "__main__":
    main()
