"""A sealed row beside bare sqlite3 with the same rows and hashing: `python -m tests.bench.sealing [--in FOLDER]`.

Both write answers of a check into a table with the same columns and conditions, in the same transactions, with the
same settings. The bare one puts a row together as JSON, hashes it with the hash before it and inserts both; it has no
triggers, refuses nothing and keeps no end of a chain. Aim on tmpfs (the default, where there is one): 1.5 at most.
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


def sealed(folder: Path, rows: int, each: int) -> float:
    """Seconds for so many rows by the records, so many to a deed."""
    with open_records(folder / "shop.db", create=True) as records:
        pack = _form(records)
        ready = [row(pack, number) for number in range(rows)]
        begun = time.perf_counter()
        for first in range(0, rows, each):
            with records.transaction(NOW):
                for values in ready[first : first + each]:
                    records.add("answer", seen_on=NOW.date(), done_by=None, **values)
        return time.perf_counter() - begun


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


def bare(folder: Path, rows: int, each: int) -> float:
    """The same by sqlite3 alone."""
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
    ready = [row(pack, number) for number in range(rows)]
    names = (*ready[0], "id", "seen_on", "recorded_at", "done_by", "seal")
    text = f"INSERT INTO answer ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})"
    before, number = "0" * 64, 2
    begun = time.perf_counter()
    for first in range(0, rows, each):
        conn.execute("BEGIN IMMEDIATE")
        for values in ready[first : first + each]:
            number += 1
            whole = values | {"id": number, "seen_on": "2026-11-25", "recorded_at": "2026-11-25T09:00:00.000000Z"}
            told = json.dumps(whole, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
            before = hashlib.sha256(f"{before}\nanswer\n{told}".encode()).hexdigest()
            conn.execute(text, (*whole.values(), None, before))
        conn.execute("COMMIT")
    took = time.perf_counter() - begun
    conn.close()
    return took


def main() -> None:
    """Print the ratio for a row a deed and for many, round by round in turn."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--in", dest="folder", default=TMPFS if Path(TMPFS).is_dir() else tempfile.gettempdir())
    asked.add_argument("--rows", type=int, default=20_000)
    asked.add_argument("--rounds", type=int, default=5)
    given = asked.parse_args()
    for each in (1, 24, 1000):
        took: dict[Callable[[Path, int, int], float], list[float]] = {bare: [], sealed: []}
        for _turn in range(given.rounds):
            for work, times in took.items():
                with tempfile.TemporaryDirectory(dir=given.folder) as folder:
                    times.append(work(Path(folder), given.rows, each) / given.rows)
        ratio = statistics.median(mine / base for mine, base in zip(took[sealed], took[bare], strict=True))
        fast = {work.__name__: min(times) * 1e6 for work, times in took.items()}
        print(
            f"{each:5} rows a deed: bare {fast['bare']:6.1f} µs, sealed {fast['sealed']:6.1f} µs a row, "
            f"ratio {fast['sealed'] / fast['bare']:.2f} (median of rounds {ratio:.2f})"
        )


if __name__ == "__main__":
    main()
