"""A sealed row beside bare sqlite3 with the same rows and hashing: `python -m tests.bench.sealing [--in FOLDER]`.

Both write answers of a check into a STRICT table with the same columns, conditions, references and index, in the same
transactions, with the same settings (WAL, synchronous = FULL, foreign keys). The bare one puts a row together as JSON,
hashes it with the hash before it and inserts both; that both end with the same seal shows that they hash the same
bytes. It has no triggers, refuses nothing, keeps no end of a chain and waits in no line. Both are given the same: plain
values, a date and a moment. Aim on tmpfs (the default, where there is one): 1.5 at most. The processor's time tells
more on a busy machine.
"""

import argparse
import datetime as dt
import hashlib
import json
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from quizkit.records import Records, open_records, store_pack
from quizkit.records.schema import expected

NOW = dt.datetime(2026, 11, 25, 9, tzinfo=dt.UTC)
TMPFS = "/dev/shm"


def row(pack: str, number: int) -> dict[str, Any]:
    """An answer as a check keeps it."""
    return {
        "form": 2,
        "item": number % 24 + 1,
        "typed": f'{{"answer":"{number}.5 mL"}}',
        "givens": '{"filler":"0.000214","ratio":"10:1","shelf.material":"Keel adhesive"}',
        "verdict": '{"answer":{"marks":"1","note":"","outcome":"right","slips":[]}}',
        "marks": "1",
        "out_of": "1",
        "marking": "1",
        "unread": 0,
        "pack": pack,
    }


Took = tuple[float, float, str]
"""Seconds by the clock and of the processor, and the last seal."""


def sealed(folder: Path, rows: int, each: int) -> Took:
    """So many rows by the records, so many to a deed."""
    with open_records(folder / "shop.db", create=True) as records:
        pack = _form(records)
        ready = [row(pack, number) for number in range(rows)]
        begun, spent = time.perf_counter(), time.process_time()
        for first in range(0, rows, each):
            with records.transaction(NOW):
                for values in ready[first : first + each]:
                    records.add("answer", seen_on=NOW.date(), done_by=None, **values)
        return time.perf_counter() - begun, time.process_time() - spent, records.head().seal


def _form(records: Records) -> str:
    with records.transaction(NOW):
        pack = store_pack(records, b"{}")
        records.add("publication", seen_on=NOW.date(), pack=pack, title="", changes="[]")
        form = {
            "skill": "x",
            "kind": "full",
            "pack": pack,
            "language": "en",
            "site": "n",
            "zone": "UTC",
            "paper": False,
        }
        assert records.add("form", seen_on=NOW.date(), **form) == 2
    return pack


def bare(folder: Path, rows: int, each: int) -> Took:
    """The same by sqlite3 alone, on a chain that begins with the same seal."""
    with open_records(folder / "begun.db", create=True) as records:
        _form(records)
        before, number = records.head().seal, records.head().position
    conn = sqlite3.connect(folder / "bare.db", isolation_level=None)
    for setting in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
        conn.execute(f"PRAGMA {setting}")
    made = expected(3)
    for table in ("person", "pack", "form", "answer", "answer_form"):
        conn.execute(made[table])
    pack = hashlib.sha256(b"{}").hexdigest()
    conn.execute("INSERT INTO pack VALUES (?, ?)", (pack, b"{}"))
    form = (2, "2026-11-25", "x", "x", "full", pack, "en", "n", "UTC", 0, "0" * 64)
    columns = "id, seen_on, recorded_at, skill, kind, pack, language, site, zone, paper, seal"
    conn.execute(f"INSERT INTO form ({columns}) VALUES (?,?,?,?,?,?,?,?,?,?,?)", form)
    ready, day = [row(pack, number) for number in range(rows)], NOW.date()
    names = (*ready[0], "id", "seen_on", "recorded_at", "done_by", "seal")
    text = f"INSERT INTO answer ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})"
    begun, spent = time.perf_counter(), time.process_time()
    for first in range(0, rows, each):
        conn.execute("BEGIN IMMEDIATE")
        moment = NOW.isoformat(timespec="microseconds").replace("+00:00", "Z")
        for values in ready[first : first + each]:
            number += 1
            whole = values | {"id": number, "seen_on": day.isoformat(), "recorded_at": moment}
            told = json.dumps(whole, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
            before = hashlib.sha256(f"{before}\nanswer\n{told}".encode()).hexdigest()
            conn.execute(text, (*whole.values(), None, before))
        conn.execute("COMMIT")
    took = time.perf_counter() - begun, time.process_time() - spent
    conn.close()
    return *took, before


def main() -> None:
    """Print the ratio for a row a deed and for many, round by round in turn."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--in", dest="folder", default=TMPFS if Path(TMPFS).is_dir() else tempfile.gettempdir())
    asked.add_argument("--rows", type=int, default=20_000)
    asked.add_argument("--rounds", type=int, default=5)
    given = asked.parse_args()
    for each in (1, 24, 1000):
        took: dict[Callable[[Path, int, int], Took], list[Took]] = {bare: [], sealed: []}
        for _turn in range(given.rounds):
            for work, times in took.items():
                with tempfile.TemporaryDirectory(dir=given.folder) as folder:
                    times.append(work(Path(folder), given.rows, each))
            assert took[bare][-1][2] == took[sealed][-1][2], "the two have not hashed the same"
        told = []
        for place, what in enumerate(("clock", "processor")):
            pairs = [(base[place], mine[place]) for base, mine in zip(took[bare], took[sealed], strict=True)]
            floor, own = (statistics.median(side) / given.rows * 1e6 for side in zip(*pairs, strict=True))
            ratio = statistics.median(mine / base for base, mine in pairs)
            told.append(f"{what}: bare {floor:5.1f} µs, sealed {own:5.1f} µs a row, {ratio:.2f} times")
        print(f"{each:5} rows a deed, medians of {given.rounds} rounds, by the {'; by the '.join(told)}")


if __name__ == "__main__":
    main()
