"""A program killed while it writes loses nothing that it was told is written, and leaves no half deed."""

import random
import subprocess
import sys
from pathlib import Path

from quizkit.records import open_records, verify_file

WRITER = """
import datetime as dt, sys
from quizkit.records import open_records
now = dt.datetime(2026, 11, 26, tzinfo=dt.UTC)
with open_records(sys.argv[1]) as records:
    while True:
        with records.transaction(now):
            for half in range(2):
                row = records.add("month", seen_on=now.date(), done_by=None, month="x", site="n", figures="[]")
        print(row, flush=True)
"""
KILLS = 8


def test_killed_at_random_moments(shop: Path) -> None:
    chance = random.Random(7)
    before = 2
    for _kill in range(KILLS):
        writer = subprocess.Popen([sys.executable, "-c", WRITER, str(shop)], stdout=subprocess.PIPE, text=True)
        assert writer.stdout is not None
        told = [int(writer.stdout.readline()) for _line in range(chance.randint(1, 40))]
        writer.kill()
        told += [int(line) for line in writer.stdout.read().splitlines() if line.isdigit()]
        writer.wait()
        with open_records(shop) as records:
            rows = {row["id"] for row in records.rows("month")}
            assert set(told) <= rows
            assert len(rows) % 2 == 0 and len(rows) >= before + 2 * len(told)
            before = len(rows)
    assert verify_file(shop).sound
